#!/bin/sh
# The real window on a virtual screen, driven by xdotool: start from /, a whole demo job, undo, "crank moved", resize,
# kill -9, start again, and the state is back. Needs xvfb, xauth, xdotool and imagemagick.
#   window.sh PROGRAM [auto|cpu|gl]
set -eu
program=$1
renderer=${2:-auto}
if [ -z "${INSIDE_XVFB:-}" ]; then
  exec env INSIDE_XVFB=1 timeout 240 xvfb-run -a -s "-screen 0 1600x1000x24" sh "$0" "$program" "$renderer"
fi

work=$(mktemp -d)
state=$work/state/shutlane/state.json
pid=
cleanup() { [ -z "$pid" ] || kill -9 "$pid" 2>/dev/null || true; rm -rf "$work"; }
trap cleanup EXIT
fail() { echo "window: $*" >&2; [ ! -e "$state" ] || tail -n 40 "$state" >&2; exit 1; }

start() {
  # From /, with nothing of the caller's surroundings but the display; leaks of the display's libraries are not ours.
  (cd / && exec env -i PATH=/usr/bin:/bin DISPLAY="$DISPLAY" XAUTHORITY="${XAUTHORITY:-}" HOME="$work" \
    XDG_STATE_HOME="$work/state" XDG_RUNTIME_DIR="$work" ASAN_OPTIONS=detect_leaks=0 "$program" --renderer "$renderer") &
  pid=$!
  window=$(timeout 30 xdotool search --sync --onlyvisible --name '^Shutlane$' | head -n 1)
  xdotool mousemove --window "$window" 5 5
  sleep 0.5
}
events() { grep -c '"at_s"' "$state" 2>/dev/null || true; }
done_ports() { grep -c '"done:' "$state" 2>/dev/null || true; }
# Waits until the state file holds that many events: what was pressed has been applied and saved.
wait_events() {
  n=0
  while [ "$(events)" != "$1" ]; do
    n=$((n + 1))
    [ $n -lt 100 ] || fail "expected $1 events after '$2', there are $(events)"
    sleep 0.05
  done
}
picture() { import -window "$window" "$work/$1.png"; }
colours() { identify -format %k "$work/$1.png"; }

logged=0
# press KEY...: each logs one event.
press() {
  for key in "$@"; do
    xdotool key "$key"
    logged=$((logged + 1))
    wait_events $logged "$key"
    sleep 0.55  # the buttons rest for half a second, so that a double click is one press
  done
}
# press_two KEY: one press that tells two events: a look and its blast; a turn and the mark.
press_two() {
  xdotool key "$1"
  logged=$((logged + 2))
  wait_events $logged "$1"
  sleep 0.55
}
# port: seen shut and blasted at once, done, and the chalk in line.
port() { press_two q; press Return q; }
# checks COUNT: sucked out, emptied, counted; each button rests longer, for none is said in a second.
checks() {
  made=0
  while [ $made -lt "$1" ]; do made=$((made + 1)); sleep 1.1; press Return; done
}

start
picture first
[ "$(colours first)" -gt 20 ] || fail "the first page is blank"
# The first stop of the keyboard is the demo job.
xdotool key Tab; sleep 0.2; xdotool key Return
n=0; while [ ! -e "$state" ]; do n=$((n + 1)); [ $n -lt 100 ] || fail "the demo job did not open"; sleep 0.05; done

sleep 0.7; xdotool key Return; sleep 0.7   # the cautions

# "Crank moved" at any time, then undo.
sleep 1.1; press Return m
xdotool key ctrl+z; wait_events 1 "undo"; xdotool key ctrl+z; wait_events 0 "undo"; logged=0
sleep 1.6

# The crank stands at its mark, cylinder 1 at firing TDC. Return is the wide button: mark in line, chalk drawn, done ...;
# q is the first answer, e the third.
press Return e                        # the mark; 3 is open: so it is this turn of the two
press Return                          # the chalk line
port                                  # 2
press_two q; press Return             # 4: blast, done
xdotool key ctrl+z; logged=$((logged - 1)); wait_events $logged "undo of done"; sleep 1.6
press Return q
xdotool windowsize "$window" 1280 720; sleep 0.6
picture small
[ "$(identify -format %wx%h "$work/small.png")" = 1280x720 ] || fail "not resized"
[ "$(colours small)" -gt 20 ] || fail "blank after the resize"
port                                  # 1
checks 3

# Killed in the middle and started again: the same job, at the same step.
sleep 3  # the buttons have rested, also where drawing is slow
picture before
kill -9 "$pid"; wait "$pid" 2>/dev/null || true
start
[ "$(events)" = "$logged" ] || fail "events were lost"
picture asked
xdotool key Return; sleep 0.3; xdotool key w   # has the crank moved meanwhile? It stands; Enter is no answer
xdotool windowsize "$window" 1280 720
convert "$work/before.png" -crop 1280x440+0+200 +repage "$work/a.png"
n=0 differing=
while [ "$differing" != 0 ] && [ $n -lt 10 ]; do  # OpenGL by software is slow on a busy machine
  n=$((n + 1)); sleep 0.6
  picture after
  convert "$work/after.png" -crop 1280x440+0+200 +repage "$work/b.png"
  # Letters may differ by a shade: their places in the font texture depend on what was drawn before.
  differing=$(compare -fuzz 3% -metric AE "$work/a.png" "$work/b.png" null: 2>&1 || true)
done
[ "$differing" = 0 ] || fail "the board after the restart differs in $differing pixels"

# A full turn, to the mark again; a new chalk line; 3, 5 and 6; then all sucked clear, emptied and the bungs counted.
sleep 1.6
press_two Return
press Return
port; port; port
checks 3
[ "$(done_ports)" = 6 ] || fail "$(done_ports) ports are done"
picture end

# A damaged state file is set aside, not lost, and the window opens all the same.
kill "$pid"; wait "$pid" || fail "the window did not close cleanly: status $?"
printf 'broken' > "$state"
start
kill "$pid"; wait "$pid" || fail "status $? after a damaged state file"
pid=
[ "$(cat "$state.damaged-1")" = broken ] || fail "the damaged state was not set aside"
echo "window: whole demo job, undo, crank moved, resize, kill, restart: all well ($renderer)"
