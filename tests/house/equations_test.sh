#!/bin/sh
# Compares the numbers in renderer/EQUATIONS.md with the marks such as (E1) in the code.
#
#   tests/house/equations_test.sh [checkout]
#
# Every number must be marked in the first file that its entry names, every mark must be on the page,
# and the page must count E1, E2, E3 … in its own order. Prints one line for each error.
set -eu
cd "${1:-$(dirname "$0")/../..}"

page=renderer/EQUATIONS.md
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

# The page, as lines of "heading NUMBER", "Code: FIRST FILE", "Test: FIRST FILE" and "More: FILE".
awk '
/^### / { print "heading", ($3 == "·") ? $2 : "none" }
/^- (Code|Test): / {
    folder = ($2 == "Code:") ? "renderer/" : "tests/"
    count = split($0, part, "`")
    for (i = 2; i <= count; i += 2) print (i == 2 ? $2 : "More:"), folder part[i]
}' "$page" >"$work/page"

# The marks in code, tests, tools and documents, as lines of "FILE:NUMBER". ASTM E308 is a standard.
find renderer tests tools README.md DEVELOPERS.md -type f \
    \( -name '*.h' -o -name '*.cpp' -o -name '*.md' \) ! -path "$page" |
    sort | while read -r file; do
    sed 's/ASTM E[0-9]*//' "$file" | grep -ow 'E[0-9][0-9]*' | sort -u | sed "s|^|$file:|" || true
done >"$work/marks"

failed=0
complain() {
    echo "$1"
    failed=1
}

number=
expected=1
while read -r kind value; do
    if [ "$kind" != heading ]; then
        [ -f "$value" ] || complain "$page: $number names $value, which does not exist"
        if [ "$kind" = Code: ] && ! grep -qx "$value:$number" "$work/marks"; then
            complain "$value: the mark ($number) is missing beside the formula"
        fi
        continue
    fi
    number=$value
    echo "$number" >>"$work/numbers"
    if [ "$number" != "E$expected" ]; then
        complain "$page: $number should be E$expected"
    fi
    expected=$((expected + 1))
done <"$work/page"

while IFS=: read -r file number; do
    if ! grep -qx "$number" "$work/numbers"; then
        complain "$file: $number is not in $page"
    fi
done <"$work/marks"

exit $failed
