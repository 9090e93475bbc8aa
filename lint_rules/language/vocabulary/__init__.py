"""Words: their forms, their levels, the lists that vouch for them."""
