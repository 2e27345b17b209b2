# Sourced by the scripts in this folder: a temporary folder, removed at the end, and a comparison.
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
failures=0

# expect CLAIM EXPECTED ACTUAL
expect() {
    [ "$2" != "$3" ] || return 0
    printf 'Failed: %s\n--- expected\n%s\n--- actual\n%s\n' "$1" "$2" "$3"
    failures=$((failures + 1))
}
