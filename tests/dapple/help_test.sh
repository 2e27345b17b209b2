#!/bin/sh
# Help, completion and the manual: all of every command's options, in the words of a photographer.
set -u
. "$(dirname "$0")/program.sh"

for shell in bash zsh fish; do
    "$dapple" completion $shell >complete.$shell 2>stderr
    expect "completion for $shell: exit code" "0 " "$? $(cat stderr)"
done
"$dapple" manual >dapple.1
"$dapple" --help >help
commands=$(sed -n '/^Commands:/,/^$/s/^  \([a-z]*\) .*/\1/p' help)
expect "there are commands" 1 $(($(echo "$commands" | wc -l) > 10))

for command in $commands; do
    "$dapple" "$command" --help >help
    expect "$command: values have names that say what they are" "" \
        "$(grep -E '\b(TEXT|INT|UINT|FLOAT)\b' help)"
    expect "$command: has an example" 1 "$(grep -c '^Examples:' help)"
    expect "$command: the example is of it" 1 "$(grep -c "^  dapple $command" help | sed 's/[2-9]/1/')"
    for option in $(grep -oE '^ +(-[a-z],)?--[a-z-]+' help | grep -oE '\-\-[a-z-]+'); do
        name=${option#--}
        expect "$command $option in bash" 1 \
            "$(sed -n "/^        $command)/,/^            ;;/p" complete.bash | grep -c -- "$option[ \"]" | sed 's/[2-9]/1/')"
        expect "$command $option in zsh" 1 \
            "$(sed -n "/^        $command)/,/^            ;;/p" complete.zsh | grep -c -- "$option\b" | sed 's/[2-9]/1/')"
        expect "$command $option in fish" 1 \
            "$(grep "from $command'" complete.fish | grep -c -- "-l $name\b" | sed 's/[2-9]/1/')"
        expect "$command $option in the manual" 1 \
            "$(sed 's/\\-/-/g' dapple.1 | sed -n "/^.SS $command\$/,/^.S[SH]/p" | grep -c -- "B$option\\\\f" | sed 's/[2-9]/1/')"
    done
done
"$dapple" render --help >help
expect "rare options are apart" "Options: --seconds Advanced options: --threads" \
    "$(grep -oE '^(Options:|Advanced options:)|^ +--seconds |^ +--threads ' help | xargs)"

if command -v bash >/dev/null; then
    bash -n complete.bash
    expect "bash can read it" 0 $?
    # complete WORD...: what is offered for the last word.
    complete() {
        bash -c '. ./complete.bash; COMP_WORDS=("$@"); COMP_CWORD=$(($# - 1)); _dapple; echo "${COMPREPLY[*]}"' _ "$@"
    }
    touch hall.toml hall.exr notes.txt
    mkdir out
    expect "commands" "render rebalance" "$(complete dapple re)"
    expect "options" "--seconds --seed" "$(complete dapple render --se)"
    expect "set files and folders" "hall.toml out" "$(complete dapple render '')"
    expect "films" "hall.exr out" "$(complete dapple judge '')"
    expect "folders" "out" "$(complete dapple render hall.toml -o '')"
    expect "words of an option" "walks" "$(complete dapple render --transport w)"
    expect "shells" "zsh" "$(complete dapple completion z)"
fi
for shell in zsh fish; do
    command -v $shell >/dev/null || continue
    $shell -n complete.$shell
    expect "$shell can read it" 0 $?
done
if command -v groff >/dev/null; then
    expect "the manual has no faults" "" "$(groff -man -Tutf8 -ww -z dapple.1 2>&1)"
fi

# ---- What is meant -------------------------------------------------------------------------------

# says CLAIM LINE ARGUMENTS...
says() {
    claim=$1
    line=$2
    shift 2
    "$dapple" "$@" >printed 2>stderr
    expect "$claim: exit code" 2 $?
    expect "$claim" "$line" "$(cat stderr)"
}
says "a set without a command" \
    "dapple: hall.toml is a set file; to render it: dapple render hall.toml; see dapple --help" hall.toml
says "a film without a command" \
    "dapple: hall.exr is a film; to judge it: dapple judge hall.exr; see dapple --help" hall.exr
says "a misspelt command" \
    "dapple: rendr: no such command; did you mean dapple render?; see dapple --help" rendr hall.toml

exit $((failures > 0))
