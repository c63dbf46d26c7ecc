"""Arguments to the Book, to the app or one job: the only place where parts are put together."""
