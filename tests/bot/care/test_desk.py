"""The care team's chat: flags from words to outcome, two nurses at once, answers, roles, and who is not admitted."""

from __future__ import annotations

from collections.abc import Awaitable, Callable
from pathlib import Path

import pytest

from bot.case import FlagState
from bot.rehearsal.world import CARE_CHAT, ON_CALL_CHAT, NoSuchButton, World
from scheduler.planfile import load_plan
from scheduler.protocol import load_protocol
from scheduler.record import EntryKind

PLANS = Path(__file__).parents[3] / "fixtures" / "plans" / "ok"

Make = Callable[[], Awaitable[World]]


@pytest.mark.parametrize("clinic", ["memory", "sqlite"], indirect=True)
async def test_a_whole_flag_life(clinic: Make) -> None:
    world = await clinic()
    await world.says("KT-014", "white patches on my tongue since yesterday")
    flag_text = world.last_care()
    assert flag_text.startswith("[example, not signed]\nURGENT · KT-014 · flag 1\nSigns of thrush")
    assert "“white patches on my tongue since yesterday”" in flag_text
    assert "Induction, week 5. Budesonide: 1 mg (2 ampoules) twice a day." in flag_text
    assert "Act by Monday 13:00." in flag_text           # four office hours from nine
    await world.taps("Ann", "Take it")
    assert "Taken by Ann (nurse)." in world.last_care()
    assert "Take it" not in [b.label for row in world.chat.last(CARE_CHAT).outgoing.buttons for b in row]
    assert "Somebody from the care team is reading" in world.maya_sees()[-1]
    await world.taps("Ann", "Answer the patient")
    assert "KT-014 wrote: “white patches on my tongue since yesterday”" in world.last_care()
    await world.says("Ann", "Please come by today.")
    assert "To KT-014: “Please come by today.”\nSend it?" in world.last_care()
    assert not any("come by" in text for text in world.maya_sees()), "nothing leaves before it was shown back"
    await world.taps("Ann", "Send to KT-014")
    assert world.maya_sees()[-1] == "From the care team (nurse):\nPlease come by today."
    assert "To KT-014: “Please come by today.”\nOn its way." in world.last_care()
    await world.taps("KT-014", "I have read it")
    assert "KT-014 has read your message" in "\n".join(world.care_shows())
    await world.taps("Ann", "Close")
    await world.taps("Ann", "treated")
    await world.says("Ann", "nystatin, see again in a week")
    flag = (await world.case()).flags[0]
    assert (flag.state, flag.outcome, flag.note) == (FlagState.CLOSED, "treated", "nystatin, see again in a week")
    assert (await world.acts())[-5:] == [
        ("Ann (nurse)", "flag taken"), ("Ann (nurse)", "wrote to the patient"),
        ("KT-014", "read the care team's message"), ("Ann (nurse)", "flag closed"), ("Ann (nurse)", "note")]
    await world.taps("Ben", "Reopen")
    assert (await world.case()).flags[0].taken_by == "Ben (nurse)"


async def test_two_nurses_tap_at_once(clinic: Make) -> None:
    world = await clinic()
    await world.says("KT-014", "white patches on my tongue")
    shown, _, data = world.button(CARE_CHAT, "Take it")
    taps = [world.people[who].tap(shown.name, data, world.clock.now(), chat=CARE_CHAT) for who in ("Ann", "Ben")]
    await world.agent.store_updates(taps, world.clock.now())
    await world.agent.pass_(world.clock.now())
    assert (await world.case()).flags[0].taken_by == "Ann (nurse)"
    assert "KT-014/1 was taken by Ann (nurse)" in world.last_care()
    assert [act for act in await world.acts() if act[1] == "flag taken"] == [("Ann (nurse)", "flag taken")]


@pytest.mark.parametrize("clinic", ["memory", "sqlite"], indirect=True)
async def test_nobody_takes_an_emergency(clinic: Make) -> None:
    world = await clinic()
    await world.says("KT-014", "steak is stuck and i cant swallow my spit")
    assert "EMERGENCY · KT-014" in world.last_care()
    await world.wait(minutes=16)
    assert "NOT TAKEN YET · EMERGENCY · KT-014 · flag 1, call 2" in world.last_care()
    await world.wait(minutes=10)
    assert any("NOT TAKEN YET" in shown.text for shown in world.chat.shown[ON_CALL_CHAT])
    await world.wait(minutes=10)
    truth = [text for text in world.maya_sees() if "nobody from the care team has read" in text]
    assert len(truth) == 1 and "Call 911 now" in truth[0]
    await world.taps("Ben", "Take it")
    before = len(world.care_shows())
    await world.wait(hours=2)
    assert not any("NOT TAKEN" in text for text in world.care_shows()[before:])


async def test_a_stranger_in_the_group_gets_nothing_done(clinic: Make) -> None:
    world = await clinic()
    world.people["Eve"] = world.chat.person("care-eve", "Eve")
    await world.says("KT-014", "white patches on my tongue")
    await world.taps("Eve", "Take it")
    assert "You are not on this care team's list" in world.last_care()
    assert (await world.case()).flags[0].state is not FlagState.TAKEN
    for words in ("/card KT-014", "/release KT-014", "/pause KT-014 x", "/invite nurse", "/write KT-014 hello"):
        await world.says("Eve", words)
        assert "You are not on this care team's list" in world.last_care()
    before = len(world.care_shows())
    await world.says("Eve", "hello everybody")
    assert len(world.care_shows()) == before, "chatter of strangers is left alone"
    assert not [who for who, _ in await world.acts() if "Eve" in who]


async def test_a_removed_member_can_do_nothing_at_once(clinic: Make) -> None:
    world = await clinic()
    await world.says("KT-014", "white patches on my tongue")
    await world.says("Dr Lindqvist", "/team")
    await world.taps("Dr Lindqvist", "Remove Ann")
    await world.taps("Ann", "Take it")
    assert (await world.case()).flags[0].state is not FlagState.TAKEN
    assert ("Dr Lindqvist (clinician)", "removed a member") in await world.acts()


async def test_a_nurse_cannot_remove_invite_release_or_sign(clinic: Make) -> None:
    world = await clinic()
    await world.says("Ann", "/invite nurse")
    assert "Not done. This needs: clinician." in world.last_care()
    await world.says("Ann", "/release KT-014")
    assert "Not done. This needs: clinician." in world.last_care()
    assert not (await world.case()).record.of(EntryKind.GATE_RELEASED)
    await world.says("Ann", "/team")
    try:
        world.button(CARE_CHAT, "Remove Ben")
    except NoSuchButton:
        pass
    else:
        raise AssertionError("a nurse is not offered to remove people")
    await world.taps_what_is_gone("Ann", f"m:{world.address('Ben')}:remove")
    assert "Not done." in world.last_care()


async def test_a_question_of_the_check_in_now(clinic: Make) -> None:
    world = await clinic()
    await world.says("Ann", "/ask KT-014")
    await world.taps("Ann", "Mouth")
    assert "The question is on its way to KT-014." in world.last_care()
    await world.taps("KT-014", "c:mouth:white")
    await world.taps("KT-014", "c:mouth:done")
    assert "Signs of thrush" in "\n".join(world.care_shows())


@pytest.mark.parametrize("clinic", ["memory", "sqlite"], indirect=True)
async def test_results_are_shown_back_and_recorded(clinic: Make) -> None:
    world = await clinic()
    await world.says("Ann", "/endoscopy KT-014 2026-03-27 12 2 dilation")
    assert "endoscopy Friday 27 March, peak 12 eos/hpf, EREFS 2, dilation: yes" in world.last_care()
    assert not (await world.case()).record.of(EntryKind.ENDOSCOPY_DONE)
    await world.taps("Ann", "Record it")
    entry = (await world.case()).record.of(EntryKind.ENDOSCOPY_DONE)[0]
    assert dict(entry.facts) == {"date": "2026-03-27", "peak_eos_hpf": 12, "erefs": 2, "dilation": True,
                                 "by": "Ann (nurse)"}
    await world.says("Ann", "/cortisol kt-014 2026-03-27 210 nmol/L")
    await world.taps("Ann", "Record it")
    assert (await world.case()).record.of(EntryKind.CORTISOL)[0].facts["unit"] == "nmol/L"
    await world.says("Ann", "/endoscopy KT-014 2026-13-27 12 2")
    assert "Nothing recorded" in world.last_care()
    await world.wait(hours=3)
    assert any("ENDOSCOPY RECORDED · KT-014" in text for text in world.care_shows())


async def test_release_and_hold(clinic: Make) -> None:
    world = await clinic()
    await world.says("Dr Lindqvist", "/gate KT-014")
    await world.taps("Dr Lindqvist", "Release: endoscopy reviewed")
    assert "Then taper starts" in world.last_care()
    await world.taps("Dr Lindqvist", "Yes, release")
    assert (await world.case()).record.gate_released("endoscopy reviewed")
    await world.says("Dr Lindqvist", "/hold KT-014")
    assert not (await world.case()).record.gate_released("endoscopy reviewed")


async def test_pause_and_resume_are_told(clinic: Make) -> None:
    world = await clinic()
    await world.says("Ann", "/pause KT-014")
    await world.taps("Ann", "3 days")
    assert "paused your reminders until Thursday 2 April" in world.maya_sees()[-1]
    await world.says("Ann", "/resume KT-014")
    assert "started your reminders again" in world.maya_sees()[-1]
    await world.says("Ann", "/resume KT-014")
    assert "KT-014 is not paused" in world.last_care()


async def test_the_digest_gathers_what_is_routine(clinic: Make) -> None:
    world = await clinic()
    await world.says("KT-014", "my voice is hoarse")
    assert not any("hoarse" in text for text in world.care_shows()), "routine flags do not ping"
    await world.wait(hours=2, minutes=5)
    digest = next(text for text in world.care_shows() if "TO DO" in text)
    assert "ROUTINE · KT-014 flag 1 · Hoarse" in digest
    await world.taps("Ann", "KT-014 flag 1")
    assert "Act by" in world.last_care() and "my voice is hoarse" in world.last_care()


async def test_every_tap_of_ours_fits_the_network(clinic: Make) -> None:
    world = await clinic()
    await world.says("KT-014", "white patches on my tongue")
    for words in ("/flags", "/patients", "/card KT-014", "/ask KT-014", "/gate KT-014", "/pause KT-014", "/plan KT-014",
                  "/team", "/help"):
        await world.says("Dr Lindqvist", words)
    for shown in world.chat.shown[CARE_CHAT]:
        for row in shown.outgoing.buttons:
            assert all(len(button.data.encode()) <= 64 for button in row)


async def test_an_unknown_patient_and_old_buttons(clinic: Make) -> None:
    world = await clinic()
    await world.says("Ann", "/card ZZ-999")
    assert "There is no patient ZZ-999" in world.last_care()
    for data in ("f:KT-014/9:take", "p:KT-014:nonsense", "z:1:2", "f:", "p:KT-014:release_7", "y:KT-014:sign_99"):
        before = len(world.care_shows())
        await world.taps_what_is_gone("Dr Lindqvist", data)
        assert len(world.care_shows()) == before + 1, data


async def test_a_member_in_their_own_chat(clinic: Make) -> None:
    world = await clinic()
    await world.says("Dr Lindqvist", "/card KT-014", in_group=False)
    card = world.last("Dr Lindqvist").text
    assert "KT-014 · active" in card and "Induction, week 5: 1 mg (2 ampoules) twice a day." in card
    await world.says("Dr Lindqvist", "/invite nurse", in_group=False)
    assert "One-time code for a nurse" in world.last("Dr Lindqvist").text
    await world.says("Dr Lindqvist", "Please come in at two.", in_group=False)
    assert "Nothing was done with these words." in world.last("Dr Lindqvist").text


async def test_answering_somebody_elses_flag_says_whose_it_is(clinic: Make) -> None:
    world = await clinic()
    await world.says("KT-014", "white patches on my tongue")
    await world.taps("Ann", "Take it")
    await world.taps("Ben", "Answer the patient")
    assert any("was taken by Ann (nurse)" in text for text in world.care_shows()[-2:])


async def test_a_care_chat_that_refuses_sends_the_emergency_on_call(clinic: Make) -> None:
    world = await clinic()
    await world.wait(hours=3)                            # ten in the morning: nobody on call is asked otherwise
    world.chat.block(CARE_CHAT)
    await world.says("KT-014", "steak is stuck and i cant swallow my spit")
    assert "EMERGENCY · KT-014" in world.chat.shown[ON_CALL_CHAT][-1].text
    await world.wait(minutes=4)
    assert "NOT TAKEN YET" in world.chat.shown[ON_CALL_CHAT][-1].text
    assert (await world.case()).flags[0].state is FlagState.RAISED


async def test_delivered_is_known(clinic: Make) -> None:
    world = await clinic()
    await world.says("KT-014", "white patches on my tongue")
    assert (await world.case()).flags[0].state is FlagState.RAISED
    await world.wait(minutes=4)
    assert (await world.case()).flags[0].state is FlagState.DELIVERED


async def test_who_has_left_is_still_followed_up(clinic: Make) -> None:
    world = await clinic()
    await world.says("KT-014", "/stop")
    before = len(world.maya_sees())
    await world.wait(days=4)
    assert any("The patient left the program" in text for text in world.care_shows())
    assert any("NOT TAKEN YET" in text for text in world.care_shows())
    assert not any("nobody from the care team" in text for text in world.maya_sees()[before:])


async def test_sent_to_emergency_care_does_not_let_the_doses_go_on(clinic: Make) -> None:
    world = await clinic()
    await world.says("KT-014", "steak is stuck and i cant swallow my spit")
    await world.taps("Ann", "Close")
    assert "Dose reminders are held because of it." in world.last_care()
    before = len(world.maya_sees())
    await world.taps("Ann", "sent to emergency care")
    assert (await world.case()).record.doses_held() is not None
    assert not any("go on" in text for text in world.maya_sees()[before:])
    await world.says("Ann", "/card KT-014")
    assert "HELD" in world.last_care()
    await world.taps("Ann", "Doses may go on")
    assert (await world.case()).record.doses_held() is None
    assert any("go on" in text for text in world.maya_sees()[before:])
    assert (await world.acts())[-1] == ("Ann (nurse)", "let the doses go on")
    await world.taps("Ann", "Doses may go on")
    assert "No doses of KT-014 are held." in world.last_care()


async def test_another_outcome_lets_the_doses_go_on(clinic: Make) -> None:
    world = await clinic()
    await world.says("KT-014", "steak is stuck and i cant swallow my spit")
    await world.taps("Ann", "Close")
    await world.taps("Ann", "seen in clinic")
    assert (await world.case()).record.doses_held() is None


async def test_a_members_picture_is_not_silently_lost(clinic: Make) -> None:
    world = await clinic()
    photo = world.people["Ann"].photo(b"picture", world.clock.now())
    await world.agent.store_updates([photo], world.clock.now())
    await world.agent.pass_(world.clock.now())
    assert "Only words can be passed on" in world.last("Ann").text


async def test_supply_is_recorded_and_moves_the_day_without_medicine(clinic: Make) -> None:
    world = await clinic()
    await world.says("Ann", "/supply KT-014 many")
    assert "Nothing recorded" in world.last_care()
    await world.says("Ann", "/supply KT-014 6")
    assert "6 packs received" in world.last_care()
    await world.says("Ann", "/card KT-014")
    # two packs of 30 and six more, four ampoules a day from the 30 March on which she joined: 240 of 4 are 60 days
    assert "Medicine lasts until the day before Friday 29 May." in world.last_care()


async def test_a_new_inhaler_is_recorded_and_moves_the_day_without_medicine(clinic: Make) -> None:
    world = await clinic()
    await world.join(load_plan(PLANS / "fl-207.toml", load_protocol()))
    await world.says("Ann", "/opened")
    await world.says("Ann", "/opened KT-014")
    assert "KT-014 takes ampoules" in world.last_care()
    await world.says("Ann", "/card FL-207")
    # 2 of 120 at 4 puffs a day since she joined, on 30 March after the morning dose: 60 days
    assert "Medicine lasts until the day before Friday 29 May." in world.last_care()
    await world.wait(days=3)
    await world.says("Ann", "/opened FL-207")
    assert "Recorded for FL-207: a new inhaler was begun" in world.last_care()
    assert ("Ann (nurse)", "recorded a new inhaler") in await world.acts()
    await world.says("Ann", "/card FL-207")
    # the second of the two is in use from the evening of 2 April: 60 doses, to the morning of 2 May
    assert "Medicine lasts until the day before Saturday 2 May." in world.last_care()


async def test_what_does_not_reach_the_patient_is_shown_where_it_was_written(clinic: Make) -> None:
    world = await clinic()
    world.chat.block(world.address("KT-014"))            # the network tells only when we send
    await world.says("Ann", "/write KT-014")
    await world.says("Ann", "Please come by today.")
    await world.taps("Ann", "Send to KT-014")
    shown = "\n".join(world.care_shows())
    assert "NOT delivered to KT-014: “Please come by today.”" in shown
    assert "Messages do not reach the patient" in shown
    await world.says("Ann", "/card KT-014")
    assert "NOT delivered: “Please come by today.”" in world.last_care()


async def test_the_afternoons_digest_holds_only_what_is_new_and_late_ones_are_marked(clinic: Make) -> None:
    world = await clinic()
    await world.wait(hours=1)
    await world.says("KT-014", "my voice is hoarse")
    await world.wait(hours=1, minutes=5)                 # 09:05
    morning = [text for text in world.care_shows() if "TO DO" in text]
    await world.wait(hours=8)                            # past 14:00: nothing new
    assert [text for text in world.care_shows() if "TO DO" in text] == morning
    await world.wait(days=4)
    digests = [text for text in world.care_shows() if "TO DO" in text]
    assert len(digests) == 5 and "LATE: since Monday 08:00, act by Thursday 09:00, nobody has taken it" in digests[-1]
    assert sum("NOT TAKEN" in text for text in world.care_shows()) == 1, "by itself only once"


async def test_a_bare_yes_to_the_nurse_reaches_the_nurse_and_takes_no_dose(clinic: Make) -> None:
    world = await clinic()
    await world.wait(minutes=50)                         # 07:50: the morning dose has been asked for
    await world.says("Ann", "/write KT-014")
    await world.says("Ann", "Is the pain gone?")
    await world.taps("Ann", "Send to KT-014")
    await world.says("KT-014", "yes")
    assert "“yes”" in world.last_care() and "Taken by Ann (nurse)." in world.last_care()
    assert not (await world.case()).record.of(EntryKind.DOSE_TAKEN)
    await world.says("KT-014", "taken")
    assert (await world.case()).record.of(EntryKind.DOSE_TAKEN)


async def test_a_yes_to_a_later_reminder_is_for_the_dose(clinic: Make) -> None:
    world = await clinic()
    await world.says("Ann", "/write KT-014")
    await world.says("Ann", "See you on Friday.")
    await world.taps("Ann", "Send to KT-014")
    await world.wait(minutes=50)
    await world.says("KT-014", "yes")
    assert (await world.case()).record.of(EntryKind.DOSE_TAKEN)
