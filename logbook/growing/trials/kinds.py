"""The kinds of entry that trials write, and how a page calls them."""

KINDS = {
    "trial": "trial set up",
    "join": "in a trial",
    "leave": "left out of a trial",
    "weights": "what counts in a trial",
    "tasting": "tasting set up",
    "taste": "tasted",
    "triangle": "triangle test",
    "decide": "decided",
}
