"""The desk: the web page on this machine, where waiting tags are answered and the stash is
looked at."""
