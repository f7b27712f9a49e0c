"""Words that tell whether stuck food has passed, is still there, or sticks now and then."""

from __future__ import annotations

from bot.understanding.context import table

_RESOLVED = """
went_down gone_down has_gone_down finally_went it_passed passed has_passed cleared cleared_itself came_up came_out
coughed_it_up coughed_up brought_it_up threw_it_up threw_up_and vomited_it sick_it_up made_myself_sick slid_down
washed_it_down dislodged resolved removed_it took_it_out taken_out got_it_out got_it_down got_it_up
got_it_to_go_down shifted gone_now fine_now ok_now okay_now ok_after fine_after all_good_now eventually finally
in_the_end before_moving moved_on then_moved its_gone better_now freed_itself worked_itself popped_out spat_it_out
came_back_up sorted_itself cleared_up went_through it_moved then_went loosened let_go er_removed hospital_removed
had_it_removed they_removed im_fine im_ok i_am_fine i_am_ok all_good im_good its_fine it_is_down its_down is_down
got_better went_through_eventually im_okay no_longer_stuck and_it_went it_went_down and_then_it_went ok_again
home_now back_home discharged sent_home home_again fine_again okay_again alright_again good_again right_again
then_it_went so_it_went
slipped_through slid_through popped_through dropped_down it_dropped finally_moved moved_through resolved_after
resolved_itself resolved_on pushed_it_through managed_to_get managed_to_swallow managed_to_pass they_pushed
got_it_through was_able_to_get_it er_got_it managed_to_drink managed_to_wash managed_to_clear ok_since fine_since
bring_it_up good_now went_away and_was_ok and_was_fine unstuck over_now came_right_back_up washed_down alright_now
then_it_went and_then_went it_then_went came_out came_free all_out_now out_now its_out all_out it_is_out camera_out
shot_down flew_down scooted_down plopped_down went_after cleared_after passed_after moved_after then_through
to_get_the_meat_out for_a_bit but_its_gone settled all_clear then_fine wore_off pushed_through budged gone_again
then_cleared slipped_down sorted_now down_now
"""

_BRINGS = "brought threw coughed sicked puked spat spewed hacked heaved retched hurled gagged vomited chucked"
_WHAT = "it them that everything the_lot the_lump the_food the_piece the_bit the_meat the_chicken"
RESOLVED = table(
    " ".join(
        f"{verb}_{what}_{back}{way}"
        for verb in _BRINGS.split()
        for what in _WHAT.split()
        for back in ("", "back_", "right_back_", "all_")
        for way in ("up", "out")
    )
    + " "
    + _RESOLVED
)

PRESENT = table("""
still right_now trying hours_in hours_now hour_now for_hours been_stuck its_been wont cannot_get cant_get
cant_swallow cannot_swallow not_moving isnt_moving hasnt_moved hasnt_gone not_gone isnt_passing never_went saliva
drool drooling spitting cant_drink hasnt_passed not_passed hasnt_cleared hasnt_shifted not_shifting not_budging
not_going isnt_going again_now comes_straight wont_go the_rest_is rest_of_it stuck_now cant_breathe help comes_back
cant_sip not_passing wont_pass refuses hasnt_budged hasnt_come not_cleared hasnt_resolved didnt_go didnt_clear
didnt_pass hasnt_dislodged
""")

SOMETIMES = table("""
a_lot_more lot_more much_more more_than_usual more_than_it more_since more_now every_time_i_eat each_time whenever
these_days nowadays regularly
frequently every_day daily every_night every_dinner keeps_getting always_gets more_and_more most_nights now_and_again
and_off more_than_before a_few_times_a most_weeks loads_lately
sometimes often occasionally now_and_then once_in_a_while every_so_often most_days most_meals every_meal
from_time_to_time every_now_and_then a_lot_lately more_often again_lately usually some_days at_times a_few_times
several_times couple_of_times couple_times more_frequently
""")

OVER_BY_DAY = table("""
yesterday last_week this_week on_monday on_tuesday on_wednesday on_thursday on_friday on_saturday on_sunday monday
tuesday wednesday thursday friday saturday sunday the_other_day days_ago last_weekend over_the_weekend
at_the_weekend two_days_ago last_month weeks_ago
""")

HAPPENED = table("got was had were did choked happened spent")

LONG_AGO = table(" ".join(str(year) for year in range(1955, 2025)) + """

in_1985 in_1986 in_1987 in_1988 in_1989 in_1990 in_1991 in_1992 in_1993 in_1994 in_1995 in_1996 in_1997
in_1998 in_1999 in_2000 in_2001 in_2002 in_2003 in_2004 in_2005 in_2006 in_2007 in_2008 in_2009 in_2010
in_2011 in_2012 in_2013 in_2014
in_2015 in_2016 in_2017 in_2018 in_2019 in_2020 in_2021 in_2022 in_2023 in_2024 in_2025 years_ago year_ago
months_ago last_year year_before_last years_back yrs_back yrs_ago years_since yrs_since when_he_was when_she_was
as_a_toddler as_a_tot as_a_boy as_a_girl as_a_baby in_8th_grade in_middle_school in_high_school outgrew as_a_kid
as_a_child when_i_was_little when_i_was_young when_i_was_younger when_i_was_small
when_i_was_a when_i_was_at_school when_i_was_in when_i_was_ten when_i_was_a_kid when_i_was_pregnant used_to
before_treatment long_ago ages_ago in_the_past history_of before_i_started before_the_steroid back_in_the_day
in_january in_february in_march in_april in_may in_june in_july in_august in_september in_october in_november
in_december before_this growing_up before_starting once_had from_the_spring from_the_summer from_the_winter
from_the_autumn in_the_spring in_the_summer in_the_winter in_the_autumn last_month weeks_ago previously
a_while_ago in_childhood
before_i_was_diagnosed last_summer last_winter last_spring last_autumn last_christmas
""")

# Acts that end it, wherever they stand: 'i threw up the chicken that was stuck'.
RESOLVED_ACTS = table("""
threw_up_the threw_up_a threw_up_some coughed_up_the coughed_up_a brought_up_the brought_up_a spat_out_the
got_out_the vomited_the vomited_up_the puked_up_the had_to_throw_up_the had_to_vomit_the they_took_out they_removed
doctor_removed er_removed
""")
