"""balltag: reads pictures of yarn-ball tags into a stash and asks where it is not sure."""
