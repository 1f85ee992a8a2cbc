"""Reads edit decision lists (CMX 3600), knowing nothing of the program that wrote them.

Columns as a manual prints a CMX listing and explains it (Videonics, Edit Suite AB-1, page 88, "CMX listing"): event
number, source, insert type (V: pictures), transition (C: cut), then source in and out, record in and out. FCM says
how the timecodes after it count: SMPTE ST 12-1 (from memory) leaves out the numbers of frames 0 and 1 (0 to 3 at
59.94) in each minute whose number does not end in 0.
"""

import re
from dataclasses import dataclass

EVENT = re.compile(
    r"(?P<number>\d{3}) +(?P<source>\S{1,8}) +(?P<insert>\S+) +(?P<transition>\S+)"
    + "".join(rf" +(?P<{name}>\d\d:\d\d:\d\d[:;]\d\d)" for name in ("source_in", "source_out", "record_in", "record_out"))
    + r" *$"
)


@dataclass
class Event:
    number: int
    source_in: int  # frames from the beginning of the film
    source_out: int
    record_in: int
    record_out: int
    clip: str = ""


def frames_of(code, numbers_a_second, drops):
    """The frame that bears a timecode: counted, minute by minute, past the numbers that are left out."""
    hours, minutes, seconds, frames = (int(part) for part in re.split("[:;]", code))
    left_out_a_minute = {30: 2, 60: 4}[numbers_a_second] if drops else 0
    if drops and minutes % 10 and seconds == 0 and frames < left_out_a_minute:
        raise ValueError(f"{code} is a number that is left out")
    passed = 0
    for minute in range(hours * 60 + minutes):
        passed += 60 * numbers_a_second - (left_out_a_minute if minute % 10 else 0)
    within = seconds * numbers_a_second + frames
    return passed + within - (left_out_a_minute if drops and minutes % 10 else 0)


def read(text, numbers_a_second):
    """Events of a list, whose timecodes count so many numbers a second. Raises ValueError for what is no list."""
    events = []
    drops = None
    lines = text.splitlines()
    if not lines or not lines[0].startswith("TITLE:"):
        raise ValueError("a list begins with its title")
    for line in lines[1:]:
        if line.startswith("FCM:"):
            drops = {"DROP FRAME": True, "NON-DROP FRAME": False}[line[4:].strip()]
        elif line.startswith("* FROM CLIP NAME:"):
            events[-1].clip = line.split(":", 1)[1].strip()
        elif line.startswith("*") or not line.strip():
            continue
        else:
            match = EVENT.match(line)
            if not match or drops is None:
                raise ValueError("no event: " + line)
            if (match["insert"], match["transition"]) != ("V", "C"):
                raise ValueError("not a cut of pictures: " + line)
            if any((";" in match[name]) != drops for name in ("source_in", "source_out", "record_in", "record_out")):
                raise ValueError("timecodes count other than FCM says: " + line)
            times = [
                frames_of(match[name], numbers_a_second, drops)
                for name in ("source_in", "source_out", "record_in", "record_out")
            ]
            events.append(Event(int(match["number"]), *times))
    return events
