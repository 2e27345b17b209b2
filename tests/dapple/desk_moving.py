"""What the hand takes in a drawing, and what goes along: from a table, off a table, and with a fixture."""
from desk_page import expect
from desk_tables import TABLE, add, drag_from


def middle(desk, kind, name):
    return desk.ask("(({ left, top, width, height }) => [left + width / 2, top + height / 2].map(Math.round))"
                    f"(document.querySelector(\"#above [data-kind={kind}][data-name='{name}'] .grip\").getBoundingClientRect())")


def click(desk, place):
    from selenium.webdriver.common.actions.action_builder import ActionBuilder
    actions = ActionBuilder(desk.browser, duration=20)
    actions.pointer_action.move_to_location(*place).pointer_down().pointer_up()
    actions.perform()


def steps_of(desk, before):
    return [[round(a - b, 3) for a, b in zip(desk.key(*name, "position"), place)] for name, place in before.items()]


def chosen_thing_is_moved(desk):
    """Whatever is drawn over it; a click still chooses what is over it."""
    before = {name: desk.key(*name, "position") for name in (("column", "table"), ("glass", "bottle green"))}
    place = middle(desk, "glass", "bottle green")
    desk.browser.execute_script("desk.select('column', 'table')")
    drag_from(desk, place, (16, 0))
    table, bottle = steps_of(desk, before)
    expect("the table that is chosen is dragged from under its bottle", True, table[0] > 0 and table == bottle)
    desk.press("undo")
    desk.settle()
    click(desk, place)
    expect("a click chooses the bottle", "bottle green", desk.ask("state.selected.name"))
    desk.browser.execute_script("desk.select('fixture', 'key')")
    drag_from(desk, [place[0] + 9, place[1]], (16, 0))
    table, bottle = steps_of(desk, before)
    expect("beside the bottle's mark the hand takes the table", True, table[0] > 0 and table == bottle)
    desk.press("undo")
    desk.settle()


def off_the_table(desk):
    place = desk.key("glass", "bottle green", "position")
    desk.browser.execute_script("desk.select('fixture', 'key')")
    drag_from(desk, middle(desk, "glass", "bottle green"), (0, 80))
    moved = desk.key("glass", "bottle green", "position")
    expect("off its table it stands on the floor", [True, 0], [moved[2] > place[2] + 0.3, moved[1]])
    expect("with a word", True, "bottle green stands on the floor now" in desk.find("#hint").text)
    desk.press("undo")
    expect("one step back it is on the table", place, desk.key("glass", "bottle green", "position"))
    desk.settle()
    count = desk.ask("state.set.tables.length")
    desk.browser.execute_script("desk.select('column', 'table')")
    desk.find("#remove").click()
    desk.until(f"state.set.tables.length === {count - 1}", "the table is taken out")
    expect("what stood on it stands on the floor", [place[0], 0, place[2]], desk.key("glass", "bottle green", "position"))
    desk.press("undo")
    expect("both come back", place, desk.key("glass", "bottle green", "position"))
    desk.settle()
    desk.browser.execute_script("desk.select('glass', 'bottle green')")
    desk.type("stands at z", place[2] + 1)
    desk.until("desk.tableOf('glass', 'bottle green').keys.position[1] === 0", "typed off the table, it goes down too")
    desk.press("undo")
    desk.settle()


BEFORE_LAMP = """((names) => { const key = state.drawing.things.find((thing) => thing.name === 'key');
  return names.map((name) => { const { position, aim } = state.set.tables.find((table) => table.name === name).keys;
    return [Math.hypot(...minus(position, key.at)), dot(unit(minus(key.aim, key.at)), unit(minus(position, key.at))),
      Math.hypot(...minus(aim, key.at))].map((x) => Number(x.toFixed(2))); }); })(['silk', 'flag 25x40'])"""


def goes_with_its_lamp(desk):
    """Cloth and flag keep their places before the fixture: distance, angle to the beam, and what they face."""
    add(desk, "desk.select('fixture', 'key'); addThing('diffuser', 'silk')", "silk")
    add(desk, "desk.select('fixture', 'key'); addThing('flag', 'flag-25x40')", "flag 25x40")
    desk.browser.execute_script("desk.select('fixture', 'key')")
    expect("the fixture says what moves with it", ["silk", "flag 25x40"], desk.ask(
        "[...document.querySelectorAll('#keys .tick')].map((label) => label.textContent.trim())"))
    before = desk.ask(BEFORE_LAMP)
    drag_from(desk, middle(desk, "fixture", "key"), (-20, -16))
    expect("dragged, it takes them along", before, desk.ask(BEFORE_LAMP))
    desk.press("undo")
    desk.settle()
    desk.type("looks at x", desk.key("fixture", "key", "aim")[0] - 0.5)
    desk.until("state.set.undo", "it is turned")
    desk.settle()
    expect("turned, it turns them", before, desk.ask(BEFORE_LAMP))
    desk.press("undo")
    desk.settle()
    places = [desk.key(*name, "position") for name in (("diffuser", "silk"), ("flag", "flag 25x40"))]
    desk.find("#keys .tick input").click()
    drag_from(desk, middle(desk, "fixture", "key"), (-20, -16))
    after = [desk.key(*name, "position") for name in (("diffuser", "silk"), ("flag", "flag 25x40"))]
    expect("what is unticked stays, the other goes", [True, False], [a == b for a, b in zip(places, after)])
    desk.press("undo")
    desk.settle()
    desk.find("#keys .tick input").click()
    with_alt(desk, places)


def with_alt(desk, places):
    from selenium.webdriver.common.action_chains import ActionChains
    from selenium.webdriver.common.keys import Keys
    before = desk.version()
    grip = desk.find("#above [data-kind=fixture][data-name=key] .grip")
    ActionChains(desk.browser).key_down(Keys.ALT).click_and_hold(grip).move_by_offset(-10, -8).move_by_offset(-10, -8) \
        .release().key_up(Keys.ALT).perform()
    desk.until(f"state.set.version > {before}", "it is dragged with Alt")
    desk.settle()
    expect("with Alt it goes alone", places, [desk.key(*name, "position") for name in (("diffuser", "silk"), ("flag", "flag 25x40"))])
    desk.press("undo")
    desk.settle()


def try_moving(desk):
    before = desk.ask("state.set.text")
    add(desk, f"addThing('column', '', {TABLE})", "table")
    add(desk, "addThing('glass', 'bottle-green')", "bottle green")
    chosen_thing_is_moved(desk)
    off_the_table(desk)
    goes_with_its_lamp(desk)
    for _ in range(4):
        desk.press("undo")
    expect("the text is as before", before, desk.ask("state.set.text"))
