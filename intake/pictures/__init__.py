"""Pictures: files and folders become pages, pages become cut-out, straightened tags."""
