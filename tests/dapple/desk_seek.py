#!/usr/bin/env python3
"""Asks a desk to find places, as its page does, without a browser. Prints what is wrong.

    desk_seek.py DAPPLE SET.toml      the set has a glass "jar" and a region "back"
"""
import http.client
import json
import re
import signal
import subprocess
import sys

PATIENCE_S = 120  # for machines that do other work too


class Desk:
    def __init__(self, dapple, path):
        self.process = subprocess.Popen([dapple, "desk", path, "--no-browser", "--passes", "60"],
                                        stdout=subprocess.PIPE, text=True)
        address = re.search(r"http://([^/]+)(/\S+)", self.process.stdout.readline())
        self.host, self.path = address.groups()

    def ask(self, method, path, body=None):
        connection = http.client.HTTPConnection(self.host, timeout=PATIENCE_S)
        connection.request(method, self.path + path, body, {"Content-Type": "application/json"})
        answer = connection.getresponse()
        return answer.status, answer.read()

    def act(self, **request):
        status, text = self.ask("POST", "act", json.dumps(request))
        return "" if status == 200 else text.decode()

    def news(self, kind, is_wanted):
        """The first news of that kind that is wanted."""
        connection = http.client.HTTPConnection(self.host, timeout=PATIENCE_S)
        connection.request("GET", self.path + "news")
        answer = connection.getresponse()
        event = ""
        while True:
            line = answer.readline().decode().strip()
            if line.startswith("event:"):
                event = line[6:].strip()
            if line.startswith("data:") and event == kind and is_wanted(json.loads(line[5:])):
                connection.close()
                return json.loads(line[5:])


def expect(claim, wanted, found):
    if wanted != found:
        print(f"{claim}: expected {wanted!r}, found {found!r}")


def test(desk):
    seek = dict(do="seek", thing="glass.jar", within=0.2, vary=["turn=0..90"], wants=["back.texture=more", "frame.burnt=less"])
    expect("a wrong name is told", '--want: the set has no region, meter or surface "bakc"; did you mean "back"?',
           desk.act(**{**seek, "wants": ["bakc.texture=more"]}))
    expect("a search begins", "", desk.act(**seek, tries=6))
    done = desk.news("seek", lambda news: not news["running"] and news["tried"] > 0)
    expect("all places are tried", (6, ""), (done["tried"], done["why"]))
    expect("places are found, with their figures", True,
           bool(done["places"]) and all("back texture" in one["measures"] for one in done["places"]))
    expect("how many do better than now is known", True, 0 <= done["better"] <= 6)
    picture = desk.ask("GET", f"seek.jpg?n={done['places'][0]['number']}")
    expect("they have pictures", (200, b"\xff\xd8"), (picture[0], picture[1][:2]))
    expect("one is taken", "", desk.act(do="change", changes=done["places"][0]["changes"]))
    moved = desk.news("set", lambda news: news["undo"])
    position = next(change["value"] for change in done["places"][0]["changes"] if "position" in change["address"])
    expect("it is in the set's text", True, f"position = {position}" in moved["text"])
    expect("that can be undone", "", desk.act(do="undo"))
    version = desk.news("set", lambda news: not news["undo"])["version"]
    shown = desk.news("picture", lambda news: news["version"] == version and news["passes"] >= 5)
    expect("a long search begins", "", desk.act(**seek, tries=2000))
    desk.news("seek", lambda news: news["running"])
    expect("it can be stopped", "", desk.act(do="seek_stop"))
    stopped = desk.news("seek", lambda news: not news["running"])
    expect("it has stopped early", True, stopped["tried"] < 2000 and stopped["why"] == "")
    after = []
    desk.news("picture", lambda news: after.append(news["passes"]) or news["passes"] == 60)
    expect("the frame at rest is not thrown away", True, min(after) >= shown["passes"])


desk = Desk(*sys.argv[1:])
try:
    test(desk)
finally:
    desk.process.send_signal(signal.SIGTERM)
    expect("the desk ends", 0, desk.process.wait(PATIENCE_S))
