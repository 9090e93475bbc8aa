-- A writer in Neovim: opens a unit, sees what is found at its words, mends one and lets one stand. `WRITTEN` is where
-- what was seen is written to, `COMMAND` the server.
local seen = {}

if not vim.lsp.start then -- Neovim before 0.8
  vim.fs = {
    find = function(name, options) return { vim.fn.findfile(name, vim.fn.fnamemodify(options.path, ":h") .. ";") } end,
    dirname = function(path) return vim.fn.fnamemodify(path, ":p:h") end,
  }
  vim.lsp.start = function(config)
    vim.lsp.buf_attach_client(0, vim.lsp.start_client(config))
  end
end

local function finish(fault)
  seen.fault = fault
  local out = assert(io.open(vim.env.WRITTEN, "w"))
  out:write(vim.fn.json_encode(seen))
  out:close()
  vim.cmd("qall!")
end

local function found(rule)
  for _, one in ipairs(vim.diagnostic.get(0)) do
    if one.code == rule then return one end
  end
end

local function await(what, wanted)
  if not vim.wait(60000, wanted, 50) then error("never: " .. what) end
end

local function act(rule, title)
  local one = found(rule)
  vim.api.nvim_win_set_cursor(0, { one.lnum + 1, one.col })
  vim.ui.select = function(items, options, choose)
    for _, item in ipairs(items) do
      local shown = options.format_item and options.format_item(item) or ""
      if shown:find(title, 1, true) then return choose(item) end
    end
    error("not offered: " .. title)
  end
  vim.lsp.buf.code_action()
end

local function write_and_mend()
  await("a word above the level", function() return found("word-above-level") and found("spelling-variety") end)
  local word = found("word-above-level")
  local line = vim.api.nvim_buf_get_lines(0, word.lnum, word.lnum + 1, false)[1]
  seen.words = line:sub(word.col + 1, word.end_col)
  act("spelling-variety", "colour")
  await("the mend", function() return not found("spelling-variety") end)
  act("word-above-level", "Let it stand")
  local function comment() return vim.fn.search("<!-- stet word-above-level:", "nw") end
  await("the comment", function() return comment() > 0 end)
  vim.cmd([[%s/stet word-above-level: /stet word-above-level: the story needs it/]])
  await("peace", function() return not found("word-above-level") and not found("stet-without-reason") end)
  seen.text = vim.api.nvim_buf_get_lines(0, 0, -1, false)
end

vim.api.nvim_create_autocmd("VimEnter", { callback = vim.schedule_wrap(function()
  local fine, fault = pcall(write_and_mend)
  finish(not fine and tostring(fault) or nil)
end) })
