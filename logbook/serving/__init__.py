"""The screens in a browser: who may come in, the page with its keys, one process a tab."""
