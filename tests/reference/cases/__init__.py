"""One module per subject. `files()` returns the documents it makes by file name."""
