#!/bin/sh
# The output of dapple plan, and the input that it refuses.
set -u
. "$(dirname "$0")/program.sh"

write_set set.toml 's/^source_mm.*/source_mm = 30.0\nsource = "tungsten"\ncct_k = 3200\npower_w = 650\ncircuit = "A"/'
cat >>set.toml <<'END'

[power]
volts = 230
circuit_a = 3

[[glass]]
name = "ball"
form = "ball"
position = [0.8, 1.4, 0.6]
diameter_mm = 100
END
"$dapple" plan set.toml -o out >table 2>stderr
expect "exit code" 0 $?
expect "nothing on standard error" "" "$(cat stderr)"
expect "where the lamp stands and what its axis meets" \
    "key      spot    1.00   2.00   1.00  2.00    0.00   0.50  -1.00  floor 3.59" \
    "$(grep '^key  *spot' table)"
expect "the power that it draws" "key      mains   650 W  2.83 A    A" "$(grep '^key  *mains' table)"
expect "the load on its circuit" "A        1         650 W  2.83 A   94 % of 3 A" \
    "$(grep '^A  ' table)"
expect "three cautions" "- heat - glare - load" \
    "$(sed -n 's/^\(- [^:]*\):.*/\1/p' table | tr '\n' ' ' | sed 's/ $//')"
expect "the thing that is too near" '    key: "ball" is 0.66 m away, nearer than 1.00 m, our own figure' \
    "$(grep ball table)"
"$dapple" plan set.toml --json >printed
expect "the file has what --json prints" "" "$(diff printed out/set.plan.json)"
expect "current in the JSON" '      "current_a": 2.826,' "$(grep current_a printed | head -n 1)"

write_set bad.toml '1i[power]\nvolts = 0\n'
"$dapple" plan bad.toml >printed 2>stderr
expect "bad input: exit code" 2 $?
expect "bad input: one line" "bad.toml:2:1: power: volts: is 0; must be from 1 to 1000" \
    "$(cat stderr)"

exit $((failures > 0))
