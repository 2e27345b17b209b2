#!/bin/sh
# The boathouse's back wall with the ribbed jar and without it: the measure and the words differ.
set -u
. "$(dirname "$0")/program.sh"

cp "$scenes"/boathouse/* .
# The table of the jar ends where the next chapter of the file begins.
sed '/^name = "ribbed jar"/,/^# ----/{/^# ----/!d}' boathouse.toml |
    awk '/^\[\[glass\]\]/ { held = $0; next }
         held != "" { if ($0 != "" && $0 !~ /^# ----/) print held; held = "" }
         { print }' >plain.toml
expect "one glass less" $(($(grep -c '^\[\[glass\]\]' boathouse.toml) - 1)) \
    "$(grep -c '^\[\[glass\]\]' plain.toml)"

# texture SET SEED: prints the texture of the back wall and its word.
texture() {
    "$dapple" render "$1.toml" -o "$1-$2" --width 320 --passes 4 --seed "$2" >stdout 2>stderr || {
        cat stderr
        exit 1
    }
    sed -n '/"name": "back wall"/,/texture_word/s/ *"texture_\(stops\|word\)": "*\([^",]*\).*/\2/p' \
        "$1-$2/$1.stats.json"
}
with=$(texture boathouse 1)
without=$(texture plain 1)
echo "with the jar: $(echo $with); without: $(echo $without)"
expect "at least three times the texture" yes \
    "$(echo $with $without | awk '{ print ($1 >= 3 * $3 && $1 > 0.3) ? "yes" : "no" }')"
[ "$(echo "$with" | tail -n 1)" != "$(echo "$without" | tail -n 1)" ]
expect "the words differ" 0 $?
expect "with another seed the words are the same" "$(echo "$with" | tail -n 1)" \
    "$(texture boathouse 2 | tail -n 1)"

# What is known does not depend on the grain.
unknown() {
    sed -n '/"regions"/,$p' "$1" | grep ': null\|"name"'
}
expect "the same measures are known with another seed" "$(unknown boathouse-1/boathouse.stats.json)" \
    "$(unknown boathouse-2/boathouse.stats.json)"

exit $((failures > 0))
