"""One procedure carried out on one opening: events, the state they add up to, and what to show next.

`step` folds one event into the state, `prompt` says what a person is to see and may answer, and a
`Session` keeps both beside the journal on disk. Front ends render a prompt and return an event.
"""
