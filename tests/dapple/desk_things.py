"""What can be added to a set on the desk, windows in the drawings, and the bounds of a search."""
from desk_page import expect

CHOOSE = "const e = document.querySelector(arguments[0]); e.value = arguments[1]; e.dispatchEvent(new Event('change'))"


def all_that_is_in_no_kit(desk):
    """Added one after another, it makes no set wrong."""
    others = desk.ask("[...element('add-other').options].map((o) => o.value).filter((what) => what)")
    for what in others:
        count = desk.ask("state.set.tables.length")
        desk.browser.execute_script(CHOOSE, "#add-other", what)
        desk.until(f"state.set.tables.length > {count}", f"{what} is added")
        expect(f"{what} is chosen", True, desk.ask("state.selected === state.set.tables.at(-1)"
                                                   " || state.selected.keys.pose === 'seated'"))
    desk.settle()
    expect("all of it is right", "", desk.find("#trouble").text)
    for _ in others:
        desk.press("undo")


def thing_under_a_cross(desk):
    """What belongs to the chosen thing gives way to other things: the key's cross on the figure, the figure's distance line
    on the camera."""
    desk.settle()
    desk.browser.execute_script("desk.select('fixture', 'key')")
    desk.until("document.querySelector(\"#above [data-aim-of='key']\")", "the key's cross")
    taken = desk.ask("(({ left, top, width, height }) => document.elementFromPoint(left + width / 2, top + height / 2)"
                     ".closest('.thing').dataset)(document.querySelector(\"#above [data-kind='stand_in'] .grip\").getBoundingClientRect())")
    expect("the hand does not take the cross where the figure stands", False, "aimOf" in taken)
    desk.browser.execute_script("desk.select('stand_in', 'figure')")
    desk.find("#above [data-kind='camera'] .grip").click()
    desk.until("state.selected.kind === 'camera'", "the camera is taken")


def cloth_beside_the_picture(desk):
    for what, value in (("fixture", "fixture/led-flood-60"), ("board", "diffuser/full")):
        count = desk.ask("state.set.tables.length")
        desk.browser.execute_script(
            "const list = document.getElementById(arguments[0]); list.value = arguments[1];"
            "list.dispatchEvent(new Event('change'))", f"add-{what}", value)
        desk.until(f"state.set.tables.length > {count}", value)
        desk.settle()
        note = desk.ask("document.querySelector('#keys .note')?.textContent ?? ''")
        expect("a lamp that comes dimmed says why, no other thing does", what == "fixture", "your exposure" in note)
    expect("a cloth for a new lamp stands beside the picture", False, desk.ask(
        "isInPicture(state.selected.keys.position, 0.45, state.drawing)"))
    for _ in range(2):
        desk.press("undo")


def doubts(desk):
    """What can hardly be meant is listed while it is so, and told once."""
    desk.until("element('doubts').hidden", "nothing to doubt")
    desk.browser.execute_script("desk.select('glass', 'jar')")
    place = desk.key("glass", "jar", "position")
    sunk = f"[{place[0]}, {place[1] - 0.03}, {place[2]}]"
    desk.browser.execute_script("changer.change([{address: 'glass.jar.position', value: arguments[0]}])", sunk)
    desk.until("!element('doubts').hidden", "a jar that is sunk into what it stands on is doubted")
    expect("it is told", "Worth a second look: 1. ", desk.ask("element('doubts-told').textContent")[:24])
    desk.browser.execute_script("desk.select('camera', '')")
    expect("beside the frame too", "Worth a second look: 1", desk.find("#doubts-open").text)
    desk.find("#doubts-open").click()
    desk.find("#doubt-list button").click()
    expect("it leads to the jar", "jar", desk.ask("state.selected.name"))
    desk.press("undo")
    desk.until("element('doubts').hidden", "the doubt is gone")


def swap_glass(desk):
    desk.browser.execute_script("desk.select('fixture', 'key'); document.querySelector('section.keys').scrollTop = 9999")
    desk.browser.execute_script(CHOOSE, "#add-glass", "glass/bottle-amber")
    desk.until("state.selected?.name === 'bottle amber'", "a bottle from the kit")
    expect("its settings are shown from their top", True, desk.ask(
        "element('selected').getBoundingClientRect().top >= document.querySelector('section.keys').getBoundingClientRect().top"))
    expect("what the kit says of it can be chosen", "amber",
           desk.ask("document.querySelector('#keys [aria-label=tint]').value"))
    desk.browser.execute_script(CHOOSE, "#keys [aria-label=which]", "jar-ribbed")
    desk.until("state.selected.keys.kit === 'jar-ribbed'", "another glass in its place")
    expect("its name, which was the kit's, goes with it", "jar ribbed", desk.ask("state.selected.name"))
    desk.press("undo")
    desk.press("undo")


def lamps_and_their_flag(desk):
    """A second lamp stands on the other side of the camera, a flag at the edge of the beam."""
    def add(call):
        count = desk.ask("state.set.tables.length")
        desk.browser.execute_script(call)
        desk.until(f"state.set.tables.length === {count + 1}", call)
        desk.settle()
    side = "((name) => Math.sign(state.drawing.things.find((thing) => thing.name === name).at[0] - state.drawing.things.find(({ kind }) => kind === 'camera').at[0]))"
    add("addThing('fixture', 'led-flood-60')")
    expect("a second lamp is on the other side of the camera", desk.ask(f"-{side}('key')"), desk.ask(f"{side}('led flood 60')"))
    add("addThing('diffuser', 'silk')")
    expect("its cloth is in its own beam only", [True, False], desk.ask(
        "['led flood 60', 'key'].map((name) => isCut(state.drawing.things.find((thing) => thing.name === name), state.selected.keys.position, 0.45))"))
    desk.browser.execute_script("desk.select('fixture', 'key')")
    add("addThing('flag', 'flag-45x60')")
    away = desk.ask("(({ along, across }, half) => [across / along / Math.tan(half), along])(inBeamOf(state.drawing.things.find((thing) =>"
                    " thing.name === 'key'), state.selected.keys.position), halfBeam(state.drawing.things.find((thing) => thing.name === 'key')))")
    edge = away[0] - 0.225 / away[1] / desk.ask("Math.tan(halfBeam(state.drawing.things.find((thing) => thing.name === 'key')))")
    if not 0.49 < edge < 1:
        print(f"a new flag begins at {edge} of the beam's radius")
    for _ in range(3):
        desk.press("undo")


def dimmer_of_a_new_spot(desk):
    """2200 lm in 20°: 2200 / (1.064 π (10°)²) = 21600 cd, 5400 lx at 2 m. f/4, 1/60 s, ISO 800 are 300 lx; half of that
    beside another fixture."""
    expect("a new spot is dimmed to a stop under the camera's setting", 0.028,
           desk.ask("easyDimmer('led-spot-40', [0, 0, 2], [0, 0, 0])"))
    expect("a weak lamp is not dimmed", None, desk.ask("easyDimmer('tungsten-bulb-40', [0, 0, 2], [0, 0, 0])"))


def window(desk):
    desk.browser.execute_script("addThing('window', '', kPlain.find(([kind]) => kind === 'window'))")
    desk.until("state.selected?.kind === 'window'", "a window")
    desk.settle()
    before = desk.key("window", "window", "centre_m")
    desk.drag("#above .opening[data-name=window] .edge-grip", 0, 12)
    after = desk.key("window", "window", "centre_m")
    if not (after[0] > before[0] and after[1] == before[1]):
        print(f"dragging a window along its wall: {before} became {after}")
    desk.press("undo")
    desk.press("undo")


def bounds(desk):
    """Drawn on the plan and on the side view; the request is what dapple search understands."""
    from selenium.webdriver.common.action_chains import ActionChains
    desk.browser.execute_script("desk.select('glass', 'jar')")
    desk.find("#seek-open").click()
    place = desk.key("glass", "jar", "position")
    for view, step in (("#above", (-60, 24)), ("#side", (-60, -24))):
        ActionChains(desk.browser).move_to_element_with_offset(desk.find(view), 40, 4).click_and_hold() \
            .move_by_offset(step[0] // 2, step[1] // 2).move_by_offset(step[0] // 2, step[1] // 2).release().perform()
    box = desk.ask("desk.bounds.box()")
    if not (box[0][0] < box[1][0] and box[0][1] < box[1][1] and box[0][2] < box[1][2]):
        print(f"a box drawn in both views: {box}")
    expect("numbers beside it say the same", [box[0][2], box[1][2]], desk.ask(
        "['from', 'to'].map((end) => Number(document.querySelector(`[aria-label='depth, ${end}, m']`).value))"))
    desk.browser.execute_script("window.kept = act; act = async (request) => { window.asked = request; return '' }")
    desk.find("#seek-start").click()
    desk.browser.execute_script("act = window.kept")
    asked = desk.ask("window.asked")
    number = lambda x: f"{x:g}"
    expect("the box is asked for", [f"{axis}={number(box[0][i])}..{number(box[1][i])}" for axis, i in
                                   (("x", 0), ("z", 2), ("height", 1))], asked["vary"][:3])
    expect("something is wanted", True, "=more" in asked["wants"][0])
    found_for_one_thing(desk)
    desk.find("#seek-close").click()
    expect("the box goes with the panel", None, desk.ask("desk.bounds.box()"))
    desk.find("#seek-open").click()
    desk.find("#judge").click()
    expect("judging has the place of the panel", True, desk.find("#said").is_displayed())
    desk.find("#judge").click()
    expect("nothing has moved", place, desk.key("glass", "jar", "position"))


def found_for_one_thing(desk):
    """What was found is shown beside its thing only, and whether it is better than what is there."""
    one = {"number": 0, "words": "x 0.1", "measures": "texture 0.02", "changes": []}
    news = {"run": 1, "thing": "glass.jar", "running": False, "tried": 40, "left_out": 0, "tries": 40, "now": "texture 0.035", "better": 0,
            "why": "", "places": [one] * 12}
    desk.browser.execute_script("seek.show(arguments[0])", news)
    expect("that nothing is better is said", True, "None of them does better than now." in desk.find("#seek-told").text)
    seen = desk.ask("(({ top, bottom }, pane) => top >= pane.top && bottom <= Math.min(pane.bottom, innerHeight))("
                    "document.querySelector('#seek-found img').getBoundingClientRect(), element('seek').getBoundingClientRect())")
    expect("the pictures are in sight", True, seen)
    desk.browser.execute_script("desk.select('fixture', 'key')")
    expect("another thing has no pictures", 0, desk.ask("document.querySelectorAll('#seek-found button').length"))
    desk.browser.execute_script("desk.select('glass', 'jar')")
    expect("chosen again, it has them", 12, desk.ask("document.querySelectorAll('#seek-found button').length"))


def map_before_its_light(desk):
    desk.browser.execute_script("window.kept = mixer.matrices; mixer.matrices = () => null")
    desk.find("#stops").click()
    expect("a map without light says that it will come", True, desk.find("#waiting").is_displayed())
    desk.browser.execute_script("mixer.matrices = window.kept")
    desk.until("document.getElementById('waiting').hidden || (mixer.load(), showWaiting(), false)", "then it is there")
    desk.find("#stops").click()


def try_things(desk):
    doubts(desk)
    swap_glass(desk)
    dimmer_of_a_new_spot(desk)
    lamps_and_their_flag(desk)
    window(desk)
    bounds(desk)
    map_before_its_light(desk)
