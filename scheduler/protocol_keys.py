"""Which values the clinic protocol must hold, and the unit each must carry ("" for texts, lists and yes/no)."""

from __future__ import annotations

SPEC: dict[str, str] = {
    "window.no_food": "min",
    "rinse.order": "",                    # "at once" | "after the window"
    "dose.repeat_reminder_after": "min",
    "dose.late_limit_before_next": "min",
    "dose.minimum_gap": "h",
    "dose.reminder_stale_after": "min",
    "step.notice_time": "",               # local HH:MM, the day before a step
    "gate.remind_every": "d",
    "check_in.repeat_after": "h",
    "check_in.open_for": "h",
    "care.reads_when": "",                # said to patients: when somebody reads
    "care.emergency_number": "",
    "care.urgent_number": "",
    "care.poison_number": "",
    "care.crisis_number": "",
    "care.act_within.emergency": "min",
    "care.act_within.urgent": "h",
    "care.act_within.routine": "h",
    "invite.valid_for": "d",
    "invite.tries": "tries",
    "invite.slow_after": "tries",
    "invite.lock": "min",
    "later.longest": "h",
}
