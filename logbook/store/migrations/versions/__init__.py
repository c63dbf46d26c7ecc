"""One file a revision, never changed once released."""
