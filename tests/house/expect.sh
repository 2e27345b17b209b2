# Read by the scripts in this folder: a folder that goes away at the end, and one comparison.
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
failures=0

# expect CLAIM EXPECTED ACTUAL
expect() {
    [ "$2" != "$3" ] || return 0
    printf 'Not so: %s\n--- expected\n%s\n--- was\n%s\n' "$1" "$2" "$3"
    failures=$((failures + 1))
}
