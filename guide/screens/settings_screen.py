"""How a person works: every setting, changed in place."""

from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.content import Content
from textual.widgets import OptionList

from guide.files.writing import why_not
from guide.run.settings import ALLOWED, Settings, longest, save_settings, settings_path
from guide.screens.line_screen import LineScreen
from guide.screens.page_screen import PageScreen, key
from guide.screens.themes import theme_for
from guide.translation import _

SAID = {
    "units": _("Measures"),
    "language": _("Spoken language"),
    "detail": _("How much of a step is shown"),
    "theme": _("Colours"),
    "name": _("Your name, for the record"),
    "firm": _("Your firm, for the record"),
    "rules": _("Whose access and fire rules"),
    "nfpa_80": _("Edition of NFPA 80 (for rules=us)"),
    "ibc": _("Edition of the IBC (for rules=us)"),
    "voice": _("Listen and speak"),
    "push_to_talk": _("Microphone only on its key"),
    "engine": _("Recogniser"),
    "model": _("Folder of the added recogniser"),
    "headset": _("A headset is worn"),
    "photos": _("Folder of a phone's photos"),
    "signature": _("Picture of your signature"),
    "own_voice": _("The voice that was taught"),
}
"""What each setting is, in a fitter's words."""
_IN_COLUMNS_FROM = 60
"""Columns of the window from which the values stand in a column."""


class SettingsScreen(PageScreen):
    """Enter changes the lit one: to its next value, or by typing."""

    BINDINGS: ClassVar[list[BindingType]] = [
        key("enter", "change", _("Change")),
        key("escape", "dismiss", _("Close")),
    ]
    heading = _("Settings")

    def body(self) -> ComposeResult:
        """Every setting with its value."""
        yield OptionList(id="list", markup=False)

    def on_mount(self) -> None:
        """Show them as they are."""
        self._fill()
        self.query_one("#list", OptionList).focus()
        self.say(_("Kept in {settings_path}").format(settings_path=settings_path()))

    def on_resize(self) -> None:
        """A narrow window has no second column."""
        self._fill()

    def _fill(self) -> None:
        known = self.hingeside.settings._asdict()
        options = self.query_one("#list", OptionList)
        lit = options.highlighted or 0
        wide = self.app.size.width >= _IN_COLUMNS_FROM
        heads = [f"{said:36}" if wide else f"{said}: " for said in SAID.values()]
        values = [(str(known[name]) or "–", "bold") for name in SAID]
        options.set_options([*map(Content.assemble, heads, values)])
        options.highlighted = lit

    @on(OptionList.OptionSelected, "#list")
    def _picked(self, event: OptionList.OptionSelected) -> None:
        name = [*SAID][event.option_index]
        value = str(getattr(self.hingeside.settings, name))
        if name in ALLOWED:
            choices = ALLOWED[name]
            self._keep(name, choices[(choices.index(value) + 1) % len(choices)])
            return
        line = LineScreen(self.heading, SAID[name], value, longest=longest(name))
        self.ask_on(line, lambda typed: self._keep(name, typed))

    def _keep(self, name: str, value: str) -> None:
        app = self.hingeside
        changed: Settings = app.settings._replace(**{name: value})
        try:
            save_settings(changed)
        except OSError as error:
            self.say(f"{why_not(error, settings_path())}.", refused=True)
            return
        app.settings = changed
        app.theme = theme_for(changed.theme, app.console.color_system)
        self.say(
            _("{setting}: {value}. Kept.").format(setting=SAID[name], value=value or _("nothing"))
        )
        self._fill()
