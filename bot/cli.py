"""The `coatwell` command: argparse only; each command imports what it needs when it runs."""

from __future__ import annotations

import argparse
import importlib
import os
import sys
from collections.abc import Sequence
from io import TextIOWrapper

# name -> (module under bot/commands, one line of help). Each module has add_arguments(parser) and run(args) -> int.
COMMANDS: dict[str, tuple[str, str]] = {
    "try": ("try_", "the whole agent on a virtual clock with invented patients"),
    "serve": ("serve", "the agent for real"),
    "plan": ("plan", "check a plan; show its timeline and supply"),
    "recipe": ("recipe", "how one dose is prepared"),
    "taper": ("taper", "a taper that whole ampoules or puffs can make"),
    "read": ("read", "read replies into findings"),
    "rules": ("rules", "the escalation rules and the protocol's numbers, for review"),
    "enrol": ("enrol", "store a signed plan and print a one-time invite"),
    "panel": ("panel", "one row a patient"),
    "export": ("export", "everything held on one patient, as FHIR, CSV or a calendar"),
    "forget": ("forget", "erase what identifies a patient and their words; keep counts"),
    "rehearse": ("rehearse", "play a scenario and print the conversation"),
    "db": ("db", "migrations, integrity, backup"),
}


def main(argv: Sequence[str] | None = None) -> int:
    """Entry point; returns the exit status (0 done, 1 the answer is no, 2 bad use, 3 trouble outside)."""
    words = list(sys.argv[1:] if argv is None else argv)
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, TextIOWrapper):     # a letter that the terminal does not have is no reason to stop
            stream.reconfigure(errors="replace")
    parser = argparse.ArgumentParser(prog="coatwell", description=(
        "Coatwell: between-visit agent for swallowed topical steroids. Not a diagnosis and not an emergency service."))
    commands = parser.add_subparsers(dest="command", metavar="COMMAND", required=True)
    chosen = next((word for word in words if not word.startswith("-")), None)
    for name, (module_name, line) in COMMANDS.items():
        sub = commands.add_parser(name, help=line, description=line,
                                  formatter_class=argparse.RawDescriptionHelpFormatter)
        if name == chosen:   # only the chosen command is imported: `coatwell --help` stays quick
            importlib.import_module(f"bot.commands.{module_name}").add_arguments(sub)
    args = parser.parse_args(words)
    module = importlib.import_module(f"bot.commands.{COMMANDS[args.command][0]}")
    return guarded(module.run, args)


def guarded(run: object, args: argparse.Namespace) -> int:
    """Run a command; the packages' own errors become one line on standard error and an exit status."""
    from bot.errors import BadUse, BotError, TroubleOutside, WrongSettings
    from scheduler.errors import SchedulerError

    try:
        return int(run(args))  # type: ignore[operator]
    except TroubleOutside as error:
        print(f"coatwell: {error}", file=sys.stderr)
        return 3
    except WrongSettings as error:
        print(f"coatwell: {error}", file=sys.stderr)
        return 2
    except BadUse as error:
        print(f"coatwell {args.command}: {error}", file=sys.stderr)
        return 2
    except (SchedulerError, BotError) as error:
        print(f"coatwell: {error}", file=sys.stderr)
        return 1
    except BrokenPipeError:      # whoever read our output has gone: nothing more is written, on leaving neither
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return 0
    except OSError as error:     # a full disk, a file that went away meanwhile
        where = f"{error.filename}: " if error.filename else ""
        print(f"coatwell {args.command}: {where}{error.strerror or error}; see that the place is there, can be written "
              "and has room, then try again", file=sys.stderr)
        return 3
    except KeyboardInterrupt:
        return 130


if __name__ == "__main__":
    sys.exit(main())
