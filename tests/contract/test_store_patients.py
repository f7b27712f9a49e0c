"""What every store must do with patients, the inbox and the care team: memory, SQLite and PostgreSQL alike."""

from __future__ import annotations

from collections.abc import AsyncIterator
from dataclasses import replace

import pytest
from stores import HOUR, MINUTE, T0, flag, keys, message, opened, patient, plan, update

from bot.case import Act, Changes, Conversation, FlagState, FoundThen, PatientState, Reply
from bot.chat.types import IncomingKind
from bot.errors import AlreadyThere
from bot.ports import Invite, Member, Store
from bot.understanding.types import Finding, Urgency
from scheduler.record import Entry, EntryKind


@pytest.fixture
async def store(store_url: str) -> AsyncIterator[Store]:
    async with opened(store_url) as found:
        yield found


# patients and the tick


async def test_a_patient_is_added_once(store: Store) -> None:
    async with store.work() as work:
        await work.add_patient(patient(), plan(), T0)
        with pytest.raises(AlreadyThere, match="KT-014"):
            await work.add_patient(patient(chat="other"), plan(), T0)
        await work.add_patient(patient("AB-001", chat=""), plan("AB-001"), T0)
        assert await work.patients() == [patient("AB-001", chat=""), patient()]
        case = await work.case("KT-014")
        assert case is not None
        assert (case.row, case.plan, case.conversation) == (patient(), plan(), Conversation())
        assert case.record.entries == () and case.flags == () and case.found == ()
        assert await work.case("ZZ-999") is None


async def test_plan_versions(store: Store) -> None:
    changed = replace(plan(), text=plan().text.replace("Dr R. Okafor", "Dr B. Lind"), signed_by="Dr B. Lind")
    async with store.work() as work:
        await work.add_patient(patient(), plan(), T0)
        assert await work.add_plan("KT-014", changed, T0 + HOUR) == 2
        first, second = await work.plans("KT-014")
        assert (first.version, first.plan, first.signed_by, first.stored_at) == (1, plan(), "Dr R. Okafor", T0)
        assert (second.version, second.plan, second.signed_by) == (2, changed, "Dr B. Lind")
        assert second.stored_at == T0 + HOUR
        case = await work.case("KT-014")
        assert case is not None and case.plan.signed_by == "Dr R. Okafor", "a stored version is not yet in force"
        await work.apply("KT-014", Changes(row=replace(case.row, plan_version=2)), T0)
        case = await work.case("KT-014")
        assert case is not None and case.plan == changed
        due, = await work.due_patients(T0, 10)
        assert (due.version, due.plan) == (2, changed)
        assert await work.plans("ZZ-999") == []


async def test_only_woken_patients_are_due_earliest_first(store: Store) -> None:
    async with store.work() as work:
        for number, state in enumerate(PatientState):
            row = patient(f"PT-{number:03}", state=state, next_at=T0 - number * MINUTE)
            await work.add_patient(row, plan(row.reference), T0)
        await work.add_patient(patient("LA-001", next_at=T0 + HOUR), plan("LA-001"), T0)
        await work.add_patient(patient("NO-001", next_at=None), plan("NO-001"), T0)
        states = list(PatientState)
        expected = [f"PT-{states.index(state):03}" for state in (PatientState.PAUSED, PatientState.ACTIVE)]
        assert [due.reference for due in await work.due_patients(T0, 10)] == expected
        assert [due.reference for due in await work.due_patients(T0, 1)] == expected[:1]
        assert [due.reference for due in await work.due_patients(T0 + HOUR, 10)] == [*expected, "LA-001"]
        await work.set_cursor(expected[0], T0 + HOUR, T0 + 2 * HOUR)
        due, = await work.due_patients(T0, 10)
        assert due.reference == expected[1] and due.plan == plan(expected[1]) and due.expanded_until == T0
        await work.quarantine(expected[1], "broken plan", T0)
        assert await work.due_patients(T0, 10) == []
        assert (expected[1], "broken plan", T0) in await work.quarantined()
        case = await work.case(expected[1])
        assert case is not None and case.row.state is PatientState.QUARANTINED


async def test_apply_writes_everything(store: Store) -> None:
    taken = Entry(EntryKind.DOSE_TAKEN, T0, "d1", {"taken_at": T0.isoformat(), "units": 2})
    consent = Entry(EntryKind.CONSENTED, T0 - HOUR, facts={"version": 1})
    found = FoundThen(Finding.THRUSH, T0, "r1")
    act = Act(T0, "nurse", "took the flag", "KT-014", "KT-014/1", {"minutes": 3})
    reply = Reply("r1", "KT-014", T0, "text", "white spots", {"findings": ["thrush"]})
    talk = Conversation("asked", "d1", T0, {"tries": 1})
    changes = Changes(entries=(consent, taken), messages=(message("m1"), message("m2")), cancel=("old*", "m1"),
                      found=(found,), flags=(flag(1), flag(2, urgency=Urgency.EMERGENCY)), acts=(act,),
                      conversation=talk, reply=reply,
                      row=patient(state=PatientState.PAUSED, chat="new", expanded_until=None, next_at=None))
    async with store.work() as work:
        await work.add_patient(patient(), plan(), T0)
        await work.put([message("old1")])
        before = await work.case("KT-014")
        assert before is not None
        await work.apply("KT-014", changes, T0)
    async with store.work() as work:
        case = await work.case("KT-014")
        assert case is not None
        assert case.record.entries == (consent, taken)
        assert (case.found, case.conversation) == ((found,), talk)
        assert case.flags == (flag(1), flag(2, urgency=Urgency.EMERGENCY))
        assert case.row == patient(state=PatientState.PAUSED, chat="new"), "the cursor stays as stored"
        assert case.after(Changes()) == before.after(changes).after(Changes(row=case.row))
        assert await work.acts() == [act]
        assert await work.replies("KT-014") == [reply]
        assert await keys(work) == ["m1", "m2"], "a cancel comes before what is put with it"
        assert await work.reference_of("new") == "KT-014"
        assert await work.reference_of("chat-KT-014") is None


async def test_apply_adds_and_replaces(store: Store) -> None:
    async with store.work() as work:
        await work.add_patient(patient(), plan(), T0)
        await work.apply("KT-014", Changes(flags=(flag(1), flag(2)), conversation=Conversation("a")), T0)
    closed = flag(1, state=FlagState.CLOSED, taken_by="nurse", taken_at=T0, closed_at=T0 + HOUR, outcome="advised",
                  note="called", raises=2)
    entries = tuple(Entry(EntryKind.RINSE_DONE, T0 - n * HOUR, f"d{n}") for n in range(3))
    async with store.work() as work:
        await work.apply("KT-014", Changes(flags=(closed,), entries=entries[:2]), T0)
        await work.apply("KT-014", Changes(entries=entries[2:], conversation=Conversation("b", facts={"x": 1})), T0)
        await work.apply("KT-014", Changes(), T0)
        case = await work.case("KT-014")
        assert case is not None
        assert case.flags == (closed, flag(2)), "oldest first, replaced by id"
        assert case.record.entries == entries, "in order of arrival"
        assert case.conversation == Conversation("b", facts={"x": 1})
        assert await work.flag("KT-014/1") == closed
        assert await work.flag("KT-014/9") is None
        with pytest.raises(LookupError):
            await work.apply("ZZ-999", Changes(entries=entries), T0)


async def test_replan_forgets_what_the_timeline_will_make_anew(store: Store) -> None:
    async with store.work() as work:
        for reference in ("KT-014", "AB-001"):
            await work.add_patient(patient(reference, expanded_until=T0 + HOUR, next_at=T0 + HOUR), plan(reference), T0)
            await work.put([message(f"{reference}:{n}", reference=reference, due_at=T0 + n * MINUTE,
                                    facts={"occasion": "o"}) for n in range(3)])
        await work.put([message("KT:talk", reference="KT-014", due_at=T0 + MINUTE)])
        await work.apply("KT-014", Changes(replan=True, messages=(
            message("KT-014:2", reference="KT-014", due_at=T0 + 2 * MINUTE, kind="anew"),)), T0)
        case = await work.case("KT-014")
        assert case is not None and (case.row.expanded_until, case.row.next_at) == (T0, T0)
        assert await work.next_due() == T0
        left = await keys(work, now=T0 + HOUR)
        assert left == ["KT-014:0", "AB-001:0", "AB-001:1", "KT:talk", "AB-001:2", "KT-014:2"]
        anew = await work.message("KT-014:2")
        assert anew is not None and anew.message.kind == "anew"
        due, = await work.due_patients(T0, 9)
        assert due.reference == "KT-014"


async def test_who_talks_in_a_chat(store: Store) -> None:
    async with store.work() as work:
        await work.add_patient(patient("AA-001", chat="c", state=PatientState.ENDED), plan("AA-001"), T0)
        assert await work.reference_of("c") == "AA-001"
        await work.add_patient(patient("BB-001", chat="c"), plan("BB-001"), T0 + HOUR)
        await work.add_patient(patient("CC-001", chat=""), plan("CC-001"), T0)
        assert await work.reference_of("c") == "BB-001"
        assert await work.reference_of("") is None
        assert await work.reference_of("unknown") is None


# the inbox


async def test_an_update_is_stored_once_and_handled_once(store: Store) -> None:
    whole = update("u1", message="m1", reply_to="m0", tap="t1", file="f", file_name="f.png", sender_name="Maya",
                   is_group=True, data="d", kind=IncomingKind.TAP)
    async with store.work() as work:
        assert await work.store_updates([whole, update("u2", "c2"), update("u1", text="again")], T0) == 2
        assert await work.store_updates([update("u2", "c2")], T0) == 0
        assert await work.store_updates([], T0) == 0
    async with store.work() as work:
        assert await work.unhandled(5) == [whole, update("u2", "c2")]
        await work.mark_handled("u1", T0)
        assert await work.unhandled(5) == [update("u2", "c2")]
        await work.mark_handled("u2", T0, trouble="KeyError: 'x'")
        assert await work.unhandled(5) == []
        assert await work.store_updates([update("u1")], T0) == 0, "a copy that comes late is known"


async def test_a_chat_is_handled_in_order(store: Store) -> None:
    async with store.work() as work:
        await work.store_updates([update("a1", "a", at=T0 + HOUR), update("a2", "a"), update("b1", "b"),
                                  update("a3", "a"), update("c1", "c")], T0)
        assert [one.id for one in await work.unhandled(9)] == ["a1", "b1", "c1"]
        assert [one.id for one in await work.unhandled(2)] == ["a1", "b1"]
        assert [one.id for one in await work.unhandled(9, ["a", "x"])] == ["b1", "c1"]
        await work.mark_handled("a1", T0)
        assert [one.id for one in await work.unhandled(9)] == ["a2", "b1", "c1"]


async def test_a_text_that_no_database_takes_holds_nothing_up(store: Store) -> None:
    async with store.work() as work:
        await work.store_updates([update("u1", text="half \ud83d and \x00 none", sender_name="\ud83d"),
                                  update("u2", "c2")], T0)
        first, second = await work.unhandled(5)
        assert (first.text, first.sender_name) == ("half ? and ? none", "?")
        assert second.id == "u2"


async def test_facts_with_characters_that_no_text_column_takes(store: Store) -> None:
    async with store.work() as work:
        await work.put([message("a", facts={"words": "half \ud83d and \x00 none", "ok": "täglich"})])
    async with store.work() as work:
        one, = await work.coming()
        assert one.facts["ok"] == "täglich" and str(one.facts["words"]).startswith("half ")


# invites, the care team, notes


async def test_invites(store: Store) -> None:
    invite = Invite("hash", "patient", "KT-014", T0, T0 + HOUR)
    async with store.work() as work:
        assert await work.invite("hash") is None
        await work.add_invite(invite)
        assert await work.invite("hash") == invite
        await work.use_invite("hash", "s1", T0 + MINUTE)
        await work.use_invite("hash", "s2", T0 + HOUR)
        assert await work.invite("hash") == replace(invite, used_at=T0 + MINUTE, used_by="s1")
        for n in range(3):
            await work.add_try("s1", T0 + n * MINUTE)
        assert await work.tries("s1", T0 + MINUTE) == 2
        assert await work.tries("s2", T0) == 0


async def test_members_and_desks(store: Store) -> None:
    nurse = Member("s1", "N. Abel", "nurse", T0 + HOUR)
    doctor = Member("s2", "Dr R. Okafor", "clinician", T0, chat="c2")
    async with store.work() as work:
        await work.add_member(nurse)
        await work.add_member(doctor)
        assert await work.members() == [doctor, nurse]
        gone = replace(nurse, removed_at=T0 + 2 * HOUR, role="on_call")
        await work.add_member(gone)
        assert await work.member("s1") is None
        assert await work.member("s2") == doctor
        assert await work.members() == [doctor, gone]
        assert await work.desk("s1") == Conversation()
        await work.set_desk("s1", Conversation("writing", "KT-014/1", T0, {"a": [1]}))
        await work.set_desk("s1", Conversation("idle"))
        await work.set_desk("s2", Conversation("writing", "KT-014/1", T0, {"a": [1]}))
        assert await work.desk("s1") == Conversation("idle")
        assert await work.desk("s2") == Conversation("writing", "KT-014/1", T0, {"a": [1]})


async def test_open_flags_the_most_urgent_first_then_the_oldest(store: Store) -> None:
    async with store.work() as work:
        for reference in ("KT-014", "AB-001"):
            await work.add_patient(patient(reference), plan(reference), T0)
        await work.apply("KT-014", Changes(flags=(
            flag(1, urgency=Urgency.ROUTINE), flag(2, raised_at=T0 + HOUR),
            flag(3, urgency=Urgency.EMERGENCY, state=FlagState.CLOSED))), T0)
        await work.apply("AB-001", Changes(flags=(
            flag(1, "AB-001", urgency=Urgency.EMERGENCY, state=FlagState.TAKEN, raised_at=T0 + HOUR),
            flag(2, "AB-001"))), T0)
        assert [one.id for one in await work.open_flags()] == ["AB-001/1", "AB-001/2", "KT-014/2", "KT-014/1"]


async def test_acts_and_replies_newest_first(store: Store) -> None:
    async with store.work() as work:
        await work.add_patient(patient(), plan(), T0)
        for n in range(4):
            await work.add_act(Act(T0, "nurse", f"act {n}", "KT-014" if n % 2 else ""))
            await work.apply("KT-014", Changes(reply=Reply(f"r{n}", "KT-014", T0, "text", f"words {n}")), T0)
        assert [act.what for act in await work.acts()] == ["act 3", "act 2", "act 1", "act 0"]
        assert [act.what for act in await work.acts("KT-014")] == ["act 3", "act 1"]
        assert [act.what for act in await work.acts(limit=1)] == ["act 3"]
        assert [reply.text for reply in await work.replies("KT-014", 2)] == ["words 3", "words 2"]
        assert await work.replies("AB-001") == []


async def test_notes(store: Store) -> None:
    async with store.work() as work:
        assert await work.get_note("offset") == ""
        await work.set_note("offset", "17")
        await work.set_note("offset", "18")
        assert await work.get_note("offset") == "18"
