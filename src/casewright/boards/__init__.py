"""The board planner: which lengths to crosscut from rough boards, which strips to rip from each, for what
parts.

For use from outside: `board_problem`, `board_plan`, `plan_boards` and `buying_odds`. Behind them:
`board_shape` finds what is clear of defects, `fill_board` cuts up one board, `choose_boards` picks among
many cut-up boards, `feet_bound` proves how little would do.
"""
