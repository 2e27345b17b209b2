#!/bin/sh
# tools/count_tests on a report as ctest writes it: programs, scripts, a crash, a skip.
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

expect "an empty report holds nothing" "0 0 0" "$(count </dev/null)"
expect "test cases are summed over programs" "15 0 0" "$(
    {
        entry base run "$(printf "$cases" 12 12 0)"
        entry math run "$(printf "$cases" ' 3' ' 3' 0)"
    } | count
)"
expect "failed cases stand beside the passed ones" "10 2 0" "$(
    entry base fail "$(printf "$cases" 12 10 2)" | count
)"
expect "a program without cases of its kind adds nothing" "0 0 0" "$(
    entry base_slow run "$(printf "$cases" 0 0 0)" | count
)"
expect "a crash is one failure" "0 1 0" "$(entry base fail "Segmentation fault" | count)"
expect "so is a report at the end of a program whose cases passed" "12 1 0" "$(
    entry base fail "$(printf "$cases" 12 12 0)" | count
)"
expect "a program that was not built is one failure" "0 1 0" "$(
    entry base notrun "" "Unable to find executable" | count
)"
expect "a script counts as itself, a skipped one apart" "1 1 1" "$(
    {
        entry house_a run ""
        entry house_b fail ""
        entry house_c notrun "" "SKIP_RETURN_CODE=77"
    } | count
)"
exit $((failures > 0))
