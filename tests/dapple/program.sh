# Sourced by the scripts in this folder. $dapple is the program under test, the scripts' one
# argument. The scripts work in a folder that is removed at the end. $scenes has the project's own
# sets.
here=$(cd "$(dirname "$0")" && pwd)
. "$here/../house/expect.sh"
dapple=${1:?give the path of the program}
scenes=$here/../../scenes
cd "$work" || exit 1

# write_set FILE [SED_SCRIPT]: writes a set of one lamp in an empty box room, changed by the script.
write_set() {
    sed "${2:-}" >"$1" <<'END'
[room]
size_m = [4.0, 4.0, 2.6]

[camera]
position = [0.0, 1.2, 1.5]
aim = [0.0, 1.0, -2.0]
frame_px = [48, 32]

[[fixture]]
name = "key"
position = [1.0, 2.0, 1.0]
aim = [0.0, 0.5, -1.0]
beam_angle_deg = 20.0
field_angle_deg = 40.0
output_lm = 800
source_mm = 30.0
END
}

# wait_for FILE [PROCESS]: waits until the file has something in it, the process has ended, or a
# minute is over.
wait_for() {
    waited=0
    while [ ! -s "$1" ] && [ $waited -lt 600 ] && kill -0 "${2:-$$}" 2>/dev/null; do
        sleep 0.1
        waited=$((waited + 1))
    done
}

# box FORM X0 Y0 Z0 X1 Y1 Z1: prints OBJ lines of a box whose faces look outward (solid), inward
# (room), or outward without a lid (open).
box() {
    for corner in "$2 $3 $4" "$5 $3 $4" "$5 $6 $4" "$2 $6 $4" \
        "$2 $3 $7" "$5 $3 $7" "$5 $6 $7" "$2 $6 $7"; do
        echo "v $corner"
    done
    for face in "-4 -3 -2 -1" "-7 -8 -5 -6" "-8 -4 -1 -5" "-3 -7 -6 -2" "-8 -7 -3 -4" "-1 -2 -6 -5"; do
        case $1,$face in
            room,*) echo "f $(reversed $face)" ;;
            open,"-1 -2 -6 -5") ;;
            *) echo "f $face" ;;
        esac
    done
}
reversed() {
    echo "$4 $3 $2 $1"
}
