"""The app on a terminal: the first screen, a run, a practice door.

A view (`run_view`, `home_view`, `text_view`) takes keys and gives a `Page`; `layout` fits a page to the
window; `paint` shows it. Only `terminal_app` and `paint` know Textual; `app` opens it.
"""
