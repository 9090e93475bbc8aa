;; A writer in Emacs with eglot: opens a unit, sees what is found at its words, mends one and lets one stand.
;; The environment's WRITTEN is where what was seen is written to, UNIT the unit.
(require 'json)
(require 'flymake)
(setq eglot-sync-connect 60 eglot-confirm-server-initiated-edits nil eglot-events-buffer-size 0)

(defun its-rule (one)
  (let ((text (flymake-diagnostic-text one)))
    (and (string-match "\\[\\([a-z-]+\\)\\]" text) (match-string 1 text))))

(defun found (rule)
  (seq-find (lambda (one) (equal (its-rule one) rule)) (flymake-diagnostics)))

(defun await (what wanted)
  (let ((end (+ (float-time) 60)))
    (while (not (funcall wanted))
      (when (> (float-time) end) (error "never: %s; %S" what (mapcar #'flymake-diagnostic-text (flymake-diagnostics))))
      (eglot--signal-textDocument/didChange)
      (flymake-start)
      (accept-process-output nil 0.2))))

(defun act (rule title)
  (let* ((last-nonmenu-event ?.) ; by key, not by mouse
         (one (found rule)) (start (flymake-diagnostic-beg one)))
    (goto-char start)
    (cl-letf (((symbol-function 'completing-read)
               (lambda (_ choices &rest _)
                 (let ((names (mapcar (lambda (one) (if (consp one) (car one) one)) choices)))
                   (or (seq-find (lambda (name) (string-match-p (regexp-quote title) name)) names)
                       (error "not offered: %s in %S" title names))))))
      (eglot-code-actions start (flymake-diagnostic-end one) nil t))))

(defun write-and-mend ()
  (find-file (getenv "UNIT"))
  (run-hooks 'post-command-hook) ; where eglot waits for its turn; a batch has no commands
  (await "the server" #'eglot-current-server)
  (await "a word above the level" (lambda () (and (found "word-above-level") (found "spelling-variety"))))
  (let* ((one (found "word-above-level"))
         (words (buffer-substring-no-properties (flymake-diagnostic-beg one) (flymake-diagnostic-end one))))
    (act "spelling-variety" "colour")
    (await "the mend" (lambda () (not (found "spelling-variety"))))
    (act "word-above-level" "Let it stand")
    (await "the comment" (lambda () (save-excursion (goto-char 1) (search-forward "stet word-above-level: " nil t))))
    (goto-char 1)
    (search-forward "stet word-above-level: ")
    (insert "the story needs it")
    (await "peace" (lambda () (not (or (found "word-above-level") (found "stet-without-reason")))))
    `((words . ,words) (text . ,(split-string (buffer-string) "\n")))))

(let ((seen (condition-case fault (write-and-mend) (error `((fault . ,(error-message-string fault)))))))
  (with-temp-file (getenv "WRITTEN") (insert (json-encode seen))))
(kill-emacs 0)
