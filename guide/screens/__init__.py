"""The app on a terminal: the first screen, a run, a practice door, the handbook, the settings.

`hingeside_app` is the app, `app` opens it. `run_view` and `practice_view` say what a key means and know no terminal;
`run_screen` (with `step_card`, `laid_over`, `voice_line`) and `practice_screen` render them in Textual's widgets,
updated in place. The other screens stand on `page_screen`: their BINDINGS are key bar, help and commands in one.
Colours are in `themes`, sizes in `hingeside.tcss`.
"""
