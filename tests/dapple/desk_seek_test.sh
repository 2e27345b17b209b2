#!/bin/sh
# "Find me a place" of the desk, without a browser.
set -u
. "$(dirname "$0")/program.sh"

write_set set.toml
cat >>set.toml <<'END_SET'

[[glass]]
name = "jar"
form = "jar"
position = [0.7, 1.2, 0.4]
height_mm = 260
diameter_mm = 120

[[region]]
name = "back"
surface = "wall_back"
END_SET
expect "places on the desk" "" "$(python3 "$here/desk_seek.py" "$dapple" set.toml 2>&1)"

exit $((failures > 0))
