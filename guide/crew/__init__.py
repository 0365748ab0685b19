"""Several devices and several people: runs united line by line, backups, and a server that a crew shares."""
