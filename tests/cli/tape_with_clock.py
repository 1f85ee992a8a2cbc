"""Cuts a generated tape and reads the clock in its picture: tape_with_clock.py PROGRAM

The clock is a bar of twenty blocks, black or white: the milliseconds of the frame, in binary. ffmpeg draws it and plays
it back; edit decision lists are read by cmx3600.py. Exit code 77: ffmpeg is not installed.
"""

import shutil
import subprocess
import sys
import tempfile
from fractions import Fraction
from pathlib import Path

import cmx3600

BITS = 20
SECONDS = 64  # past the minute where drop-frame numbers are left out
CUTS = [(0.0, 1.0), (12.345, 13.21), (29.99, 30.75), (59.5, 60.52), (61.234, 62.5)]
RATES = {  # frames a second, and the words that the program takes for it
    Fraction(25): ["25"],
    Fraction(30000, 1001): ["29.97", "29.97ndf"],
    Fraction(30): ["30"],
    Fraction(50): ["50"],
    Fraction(60000, 1001): ["59.94", "59.94ndf"],
}
TICK = 0.0011  # the clock counts milliseconds, and lists tell times to milliseconds


def run(*words):
    return subprocess.run([str(word) for word in words], check=True, capture_output=True).stdout


def make_tape(file, rate, whole_frames):
    clock = "geq=lum='255*mod(floor(floor(1000*T+0.5)/pow(2,X)),2)'"
    run(
        "ffmpeg", "-v", "error", "-f", "lavfi", "-i", f"color=s={BITS}x2:r={rate}:d={SECONDS},format=gray,{clock}",
        "-vf", "scale=160:90:flags=neighbor,setsar=1,format=yuv420p", "-c:v", "libx264", "-preset", "ultrafast",
        *(["-g", "1"] if whole_frames else []), file,
    )


def clocks_of(*source):
    """Seconds that the frames of a film show, in their order."""
    picture = run("ffmpeg", "-v", "error", *source, "-vf", f"scale={BITS}:1:flags=area,format=gray",
                  "-vsync", "passthrough", "-f", "rawvideo", "-")
    frames = [picture[at : at + BITS] for at in range(0, len(picture), BITS)]
    if any(48 < block < 208 for frame in frames for block in frame):
        raise AssertionError("the clock is blurred")
    return [sum(1 << bit for bit, block in enumerate(frame) if block > 128) / 1000 for frame in frames]


def runs_of(clocks, frame):
    """Where the clock jumps a new cut begins."""
    runs = []
    for clock in clocks:
        if runs and abs(clock - runs[-1][-1] - frame) < 2 * TICK:
            runs[-1].append(clock)
        else:
            runs.append([clock])
    return runs


def check_cuts(what, clocks, frame):
    """Each cut shows the seconds that it says: from its start to its end, to a frame."""
    runs = runs_of(clocks, frame)
    assert len(runs) == len(CUTS), f"{what}: {len(runs)} cuts for {len(CUTS)}"
    for (start, end), shown in zip(CUTS, runs):
        assert abs(shown[0] - start) <= frame + TICK, f"{what}: begins at {shown[0]}, not at {start}"
        assert abs(shown[-1] + frame - end) <= frame + TICK, f"{what}: ends at {shown[-1] + frame}, not at {end}"


def check_events(what, events, clocks, frame):
    """The frames that a list names show its seconds, to half a frame, and follow one another in the record."""
    assert [event.number for event in events] == list(range(1, len(CUTS) + 1)), what
    at = 0
    for (start, end), event in zip(CUTS, events):
        assert event.clip == "tape.mp4", what
        assert abs(clocks[event.source_in] - start) <= frame / 2 + TICK, f"{what}: in {clocks[event.source_in]}"
        assert abs(clocks[event.source_out] - end) <= frame / 2 + TICK, f"{what}: out {clocks[event.source_out]}"
        assert event.record_in == at, what
        at = event.record_out
        assert event.record_out - event.record_in == event.source_out - event.source_in, what


def write_chart(file):
    rows = ["game,level,down,to_go,yards_to_goal,family,result,yards,clip,start,end"]
    rows += [f"1,high_school,1,10,60,boot,complete,6,tape.mp4,{start},{end}" for start, end in CUTS]
    file.write_text("\n".join(rows) + "\n")


def cut(program, folder, *words):
    run(program, "answer", folder / "chart.csv", "--scheme", "balanced", "--draws", 500, "--force",
        "--snaps", "boot completion", *(word for file in words for word in ("--cut", folder / file)))


def check_rate(program, folder, rate, words):
    frame = float(1 / rate)
    tape = folder / "tape.mp4"
    make_tape(tape, rate, whole_frames=True)
    clocks = clocks_of("-i", tape)
    assert len(clocks) >= SECONDS * rate - 1
    cut(program, folder, "cuts.ffconcat", "reel.mp4")
    check_cuts(f"{rate}, ffconcat", clocks_of("-safe", "0", "-f", "concat", "-i", folder / "cuts.ffconcat"), frame)
    check_cuts(f"{rate}, reel", clocks_of("-i", folder / "reel.mp4"), frame)
    for word in words:
        run(program, "answer", folder / "chart.csv", "--scheme", "balanced", "--draws", 500, "--force", "--snaps",
            "boot completion", "--cut", folder / "cuts.edl", "--frames", word)
        text = (folder / "cuts.edl").read_text()
        check_events(word, cmx3600.read(text, round(rate)), clocks, frame)
        check_the_checks(text, rate, clocks)


def check_long_groups(program, folder):
    """Film of which few frames are whole: the reel falls on the frame all the same, by program and by script."""
    rate = Fraction(30000, 1001)
    make_tape(folder / "tape.mp4", rate, whole_frames=False)
    cut(program, folder, "reel.mp4", "reel.sh")
    run("sh", folder / "reel.sh", folder / "by-script.mp4")
    for reel in ("reel.mp4", "by-script.mp4"):
        check_cuts(reel, clocks_of("-i", folder / reel), float(1 / rate))


def must_fail(what, check, *words):
    try:
        check(what, *words)
    except AssertionError:
        return
    raise SystemExit(f"{what}: was not seen")


def check_the_checks(text, rate, clocks):
    """A list that is a frame late is seen, and one that leaves numbers out is not read as one that leaves out none."""
    frame = float(1 / rate)
    late = cmx3600.read(text, round(rate))
    for event in late:
        event.source_in += 1
    must_fail("a frame late", check_events, late, clocks, frame)
    if "FCM: DROP FRAME" in text:
        misread = cmx3600.read(text.replace("FCM: DROP", "FCM: NON-DROP").replace(";", ":"), round(rate))
        must_fail("numbers left out", check_events, misread, clocks, frame)


def main():
    if shutil.which("ffmpeg") is None:
        print("skipped: ffmpeg is not installed (apt install ffmpeg)")
        return 77
    program = Path(sys.argv[1]).resolve()
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        write_chart(folder / "chart.csv")
        for rate, words in RATES.items():
            (folder / "tape.mp4").unlink(missing_ok=True)
            check_rate(program, folder, rate, words)
            print(f"{float(rate):.2f} frames a second: ok")
        (folder / "tape.mp4").unlink()
        check_long_groups(program, folder)
    return 0


if __name__ == "__main__":
    sys.exit(main())
