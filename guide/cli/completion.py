"""`hingeside completion SHELL`: the lines that teach a shell to complete this command, by the library argcomplete."""

import argparse

from guide.errors import DONE

SHELLS = ("bash", "zsh", "fish")
EXAMPLES = """\
  hingeside completion bash      for ~/.bashrc:  eval "$(hingeside completion bash)"
  hingeside completion zsh       for ~/.zshrc:  eval "$(hingeside completion zsh)"
  hingeside completion fish      for ~/.config/fish/completions/hingeside.fish
"""


def arguments(parser: argparse.ArgumentParser) -> None:
    """Add the options of the verb."""
    parser.add_argument("shell", choices=SHELLS, metavar="SHELL", help="bash, zsh or fish")


def run(options: argparse.Namespace) -> int:
    """Print the lines for that shell."""
    from argcomplete.shell_integration import shellcode  # only a shell that is set up needs it

    print(shellcode(["hingeside"], shell=options.shell))
    return DONE
