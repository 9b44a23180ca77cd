"""Filing: a tag goes to the stash when all it carries is sure, else to the queue."""
