#!/bin/sh
# dapple desk: the page in a browser, and what the server refuses.
set -u
. "$(dirname "$0")/program.sh"
python=/usr/bin/python3
[ -x "$python" ] || python=python3

write_set set.toml 's/^output_lm.*/output_lm = 800  # lm, as it is/'
cat >>set.toml <<'END_SET'

# the jar
[[glass]]
name = "jar"
form = "jar"
position = [0.5, 0.0, -0.4]   # on the floor
height_mm = 260
diameter_mm = 120

[[column]]
position = [-1.5, 0.0, -1.5]
diameter_m = 0.3
END_SET
cp set.toml first.toml

message=$("$python" "$here/desk_browser.py" "$dapple" set.toml 2>&1)
code=$?
if [ $code -eq 77 ]; then
    echo "$message"
    exit 77
fi
expect "the desk in a browser" "" "$message"
expect "the saved file differs in the one value" 2 "$(diff first.toml set.toml | grep -c '^[<>]')"
expect "comments stay" 1 "$(grep -c '# on the floor' set.toml)"
expect "no side file is left" "" "$(ls ./*.unsaved 2>/dev/null)"

"$dapple" desk missing.toml --no-browser >printed 2>stderr
expect "a set that is not there: exit code" 2 $?
expect "a set that is not there: one line" 1 "$(wc -l <stderr)"

exit $((failures > 0))
