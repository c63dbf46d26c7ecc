"""A book on a server: PostgreSQL's alone, beside store/file/, which is SQLite's."""
