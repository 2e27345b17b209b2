#!/bin/sh
# Runs tools/count_tests on reports in ctest's format: programs, scripts, a crash, a skipped test.
set -u
cd "$(dirname "$0")/../.."
. tests/house/expect.sh

# entry NAME STATUS [line of output]
entry() {
    printf '\t<testcase name="%s" classname="%s" time="0.1" status="%s">\n' "$1" "$1" "$2"
    case $2 in
        fail) printf '\t\t<failure message=""/>\n' ;;
        notrun) printf '\t\t<skipped message="%s"/>\n' "$4" ;;
    esac
    printf '\t\t<system-out>%s\n</system-out>\n\t</testcase>\n' "$3"
}
count() {
    cat >"$work/tests.xml"
    tools/count_tests "$work/tests.xml"
}
cases='[doctest] test cases: %s | %s passed | %s failed | 0 skipped'

expect "an empty report counts nothing" "0 0 0" "$(count </dev/null)"
expect "test cases are summed over programs" "15 0 0" "$(
    {
        entry base run "$(printf "$cases" 12 12 0)"
        entry math run "$(printf "$cases" ' 3' ' 3' 0)"
    } | count
)"
expect "failed and passed cases are counted separately" "10 2 0" "$(
    entry base fail "$(printf "$cases" 12 10 2)" | count
)"
expect "a program without matching cases adds nothing" "0 0 0" "$(
    entry base_slow run "$(printf "$cases" 0 0 0)" | count
)"
expect "a crash is one failure" "0 1 0" "$(entry base fail "Segmentation fault" | count)"
expect "a failure after all cases passed is one failure" "12 1 0" "$(
    entry base fail "$(printf "$cases" 12 12 0)" | count
)"
expect "a program that was not built is one failure" "0 1 0" "$(
    entry base notrun "" "Unable to find executable" | count
)"
expect "a script counts as one, and a skipped script counts as skipped" "1 1 1" "$(
    {
        entry house_a run ""
        entry house_b fail ""
        entry house_c notrun "" "SKIP_RETURN_CODE=77"
    } | count
)"
exit $((failures > 0))
