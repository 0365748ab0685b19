"""The handbook: Markdown pages that are installed with the package, in a folder for each subject."""
