"""Tables on the desk: dragged like other things, with what stands on them, in drawings whose lines give way."""
from desk_page import expect

TABLE = "kPlain.find((plain) => plain[3] === 'table')"


def add(desk, call, name):
    count = desk.ask("state.set.tables.length")
    desk.browser.execute_script(call)
    desk.until(f"state.set.tables.length === {count + 1} && state.selected.name === '{name}'", f"{name} is added")
    desk.settle()


def stands_on(desk, glass):
    """Whether it stands on the table's top."""
    return desk.ask("(([jar, table]) => isOver(topOf(table), jar.keys.position)"
                    " && Math.abs(jar.keys.position[1] - topOf(table).at[1]) < 0.001)"
                    f"(['{glass}', 'table'].map((name) => state.set.tables.find((one) => one.name === name)))")


def glass_on_a_table(desk):
    add(desk, f"addThing('column', '', {TABLE})", "table")
    expect("its heading says what it is, once", "table", desk.find("#selected").text)
    expect("it is drawn as what is chosen", 2, desk.ask("document.querySelectorAll('.chosen[data-kind=column]').length"))
    expect("with its distances", True, desk.ask("document.querySelectorAll('#above .tape').length === 4"))
    for name in ("jar ribbed", "jar ribbed 2"):
        add(desk, "addThing('glass', 'jar-ribbed')", name)
        expect(f"{name}, added with the table or its glass chosen, stands on it", True, stands_on(desk, name))
    expect("and not in the other", True, desk.ask("Math.hypot(...['jar ribbed', 'jar ribbed 2'].map((name) => desk.tableOf('glass',"
                                                  " name).keys.position).reduce((a, b) => a.map((x, i) => x - b[i]))) > 0.15"))


def table_with_its_glass(desk):
    before = {name: desk.key(*name, "position") for name in (("column", "table"), ("glass", "jar ribbed"))}
    desk.browser.execute_script("desk.select('fixture', 'key')")
    # Its far corner, where no glass stands.
    desk.browser.execute_script("""
      const box = document.querySelector('#above [data-name=table] .outline').getBoundingClientRect();
      window.corner = [box.right - 5, box.bottom - 5].map(Math.round);""")
    corner = desk.ask("window.corner")
    drag_from(desk, corner, (24, 12))
    expect("the table is chosen by the drag", "table", desk.ask("state.selected.name"))
    steps = [[round(a - b, 3) for a, b in zip(desk.key(*name, "position"), place)] for name, place in before.items()]
    expect("a table is dragged", True, steps[0][0] > 0 and steps[0][2] > 0)
    expect("with its glass", steps[0], steps[1])
    expect("no text is marked by the drag", "", desk.ask("getSelection().toString()"))
    desk.type("height", "90 cm")
    desk.until("desk.tableOf('glass', 'jar ribbed').keys.position[1] === 0.9", "the glass goes up with the top")
    desk.press("undo")
    desk.press("undo")
    expect("all of it is one step", before["glass", "jar ribbed"], desk.key("glass", "jar ribbed", "position"))
    desk.settle()


def drag_from(desk, place, step):
    from selenium.webdriver.common.actions.action_builder import ActionBuilder
    before = desk.version()
    actions = ActionBuilder(desk.browser, duration=20)
    hand = actions.pointer_action
    hand.move_to_location(*place).pointer_down()
    for i in (1, 2, 3):
        hand.move_to_location(*(round(x + dx * i / 3) for x, dx in zip(place, step)))
    hand.pointer_up()
    actions.perform()
    desk.until(f"state.set.version > {before}", "the set is changed by dragging")
    desk.settle()


def snaps_to_the_top(desk):
    """Let go a little above the table in the side view, a jar stands on it."""
    table = desk.key("column", "table", "position")
    place = f"[{table[0]}, 1.2, {table[2]}]"
    desk.browser.execute_script("changer.change([{ address: 'glass.jar ribbed.position', value: arguments[0] }])", place)
    desk.until("desk.tableOf('glass', 'jar ribbed').keys.position[1] === 1.2", "it hangs in the air")
    desk.settle()
    down = desk.ask("(() => { const polygon = state.drawing.room.box; const box = element('side').clientHeight;"
                    " return Math.round(0.45 * Math.min((box - 24) / (polygon[1][1] - polygon[0][1]),"
                    " (element('side').clientWidth - 52) / (polygon[1][2] - polygon[0][2]))) - 4; })()")
    grip = desk.ask("(({ left, top, width, height }) => [left + width / 2, top + height / 2].map(Math.round))"
                    "(document.querySelector(\"#side [data-name='jar ribbed'] .grip\").getBoundingClientRect())")
    drag_from(desk, grip, (0, down))
    expect("it stands on the top", True, stands_on(desk, "jar ribbed"))
    desk.press("undo")
    desk.press("undo")


def lines_give_way(desk):
    """A distance line of the chosen thing runs over another thing: the hand takes the thing."""
    desk.browser.execute_script("desk.select('fixture', 'key')")
    taking = desk.ask("[...document.querySelectorAll('.views svg :is(.tape, .axis, .beam, .field, .seen, .wall)')]"
                      ".filter((line) => getComputedStyle(line).pointerEvents !== 'none').length")
    expect("lines that take the pointer", 0, taking)


def numbers_have_names(desk):
    desk.browser.execute_script("desk.select('glass', 'jar')")
    expect("the numbers of a place", ["left/right", "height", "depth"], desk.ask(
        "[...document.querySelectorAll(\"#keys [aria-label='stands at x']\")][0].closest('.parts').innerText.trim().split(/\\s+/)"))


def try_tables(desk):
    before = desk.ask("state.set.text")
    glass_on_a_table(desk)
    table_with_its_glass(desk)
    snaps_to_the_top(desk)
    lines_give_way(desk)
    numbers_have_names(desk)
    for _ in range(3):
        desk.press("undo")
    expect("the text is as before", before, desk.ask("state.set.text"))
