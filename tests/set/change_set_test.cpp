#include "set/change_set.h"

#include <doctest/doctest.h>
#include <toml++/toml.h>

using namespace dapple;

namespace {

const std::string kSet =
    "title = \"Ünlit\" # as it is\n"
    "[camera]\n"
    "iso = 800 # fast\n"
    "\n"
    "# the moon\n"
    "[[fixture]]\n"
    "name = \"moon\"   # cool\n"
    "cct_k = 5600\n"
    "gel = { shift_mired = -35, stops = 0.5 }\n"
    "\n"
    "# the jar\n"
    "[[glass]]\n"
    "kit = \"jar-ribbed\"\n"
    "position = [1.0, 2.0,\n"
    "            3.0]\n"
    "name = \"jar 2.5\"\n"
    "ribs = 24\n"
    "\n"
    "# the wing\n"
    "[[flag]]\n"
    "name = \"wing\"\n"
    "size_m = [1, 1]\n";

std::string changed_set(const std::vector<SetChange>& changes) {
    Problems problems;
    const std::string result = change_set(kSet, changes, problems);
    return problems.empty() ? result : to_string(problems.all().front());
}

std::string with(const std::string& old, const std::string& replacement) {
    std::string text = kSet;
    text.replace(text.find(old), old.size(), replacement);
    return text;
}

}  // namespace

TEST_CASE("a value is written over the old one, and nothing else changes") {
    CHECK(changed_set({}) == kSet);
    CHECK(changed_set({{"camera.iso", "1600", {}}}) == with("iso = 800", "iso = 1600"));
    CHECK(changed_set({{"fixture.moon.cct_k", "3200", {}}}) == with("5600", "3200"));
    CHECK(changed_set({{"glass.jar 2.5.ribs", "12", {}}}) == with("ribs = 24", "ribs = 12"));
    CHECK(changed_set({{"glass.jar 2.5.position", "[ 4.0, 5.0, 6.0 ]", {}}}) ==
          with("[1.0, 2.0,\n            3.0]", "[4.0, 5.0, 6.0]"));
}

TEST_CASE("numbers are written with the digits that they need") {
    const auto position = [](const std::string& value) {
        return changed_set({{"glass.jar 2.5.position", value, {}}});
    };
    const std::string old = "[1.0, 2.0,\n            3.0]";
    CHECK(position("[1.003, -0.462, 2]") == with(old, "[1.003, -0.462, 2]"));
    CHECK(position("[100.0, 1e-9, 0.1]") == with(old, "[100.0, 1e-09, 0.1]"));
    CHECK(changed_set({{"fixture.moon.gel", "{ \"odd key\" = \"a\\\"b\", on = true }", {}}}) ==
          with("{ shift_mired = -35, stops = 0.5 }", "{ \"odd key\" = \"a\\\"b\", on = true }"));
}

TEST_CASE("a key that is not there goes below the name") {
    CHECK(changed_set({{"fixture.moon.dimmer", "0.5", {}}}) ==
          with("   # cool\n", "   # cool\ndimmer = 0.5\n"));
    CHECK(changed_set({{"camera.f_number", "4.0", {}}}) ==
          with("[camera]\n", "[camera]\nf_number = 4.0\n"));
}

TEST_CASE("keys within keys change together") {
    const std::string text = changed_set({{"fixture.moon.gel.stops", "1.0", {}},
                                          {"fixture.moon.gel.shift_mired", "20", {}},
                                          {"fixture.moon.lux.value", "500", {}},
                                          {"fixture.moon.lux.at_m", "2.0", {}}});
    const toml::table set = toml::parse(text);
    const toml::table& moon = *set["fixture"][0].as_table();
    CHECK(moon["gel"]["stops"].value<double>() == 1.0);
    CHECK(moon["gel"]["shift_mired"].value<double>() == 20);
    CHECK(moon["lux"]["value"].value<double>() == 500);
    CHECK(moon["lux"]["at_m"].value<double>() == 2);
    CHECK(moon["cct_k"].value<double>() == 5600);
}

TEST_CASE("a whole table is taken out, or replaced where it stands") {
    CHECK(changed_set({{"flag.wing", "true", {}}}) == kSet);
    CHECK(changed_set({{"flag.wing", "false", {}}}) == kSet.substr(0, kSet.find("[[flag]]")));
    CHECK(changed_set({{"glass.jar 2.5", "false", {}}}) ==
          kSet.substr(0, kSet.find("[[glass]]")) + kSet.substr(kSet.find("\n# the wing")));
    const toml::table set = toml::parse(
        changed_set({{"glass.jar 2.5", "{ kit = \"bottle-amber\", height_mm = 300 }", {}}}));
    const toml::table& glass = *set["glass"][0].as_table();
    CHECK(glass["kit"].value<std::string>() == "bottle-amber");
    CHECK(glass["height_mm"].value<int64_t>() == 300);
    CHECK(glass["name"].value<std::string>() == "jar 2.5");
    CHECK(glass["position"][2].value<double>() == 3.0);
    CHECK(!glass.contains("ribs"));
    CHECK(set["flag"][0]["name"].value<std::string>() == "wing");
}

TEST_CASE("a key that varies goes to what is swapped in, in either order") {
    const SetChange swap{"glass.jar 2.5", "{ kit = \"jar-spiral\" }", {}};
    const SetChange ribs{"glass.jar 2.5.ribs", "12", {}};
    for (const auto& changes : {std::vector{swap, ribs}, std::vector{ribs, swap}}) {
        const toml::table set = toml::parse(changed_set(changes));
        CHECK(set["glass"][0]["kit"].value<std::string>() == "jar-spiral");
        CHECK(set["glass"][0]["ribs"].value<int64_t>() == 12);
    }
    const SetChange both{"glass.jar 2.5", "{ kit = \"jar-spiral\", ribs = 8 }", {}};
    for (const auto& changes : {std::vector{both, ribs}, std::vector{ribs, both}}) {
        CHECK(changed_set(changes).find("\"ribs\" is given twice") != std::string::npos);
    }
}

TEST_CASE("a thing without a name is found by its usual one") {
    const std::string unnamed = with("name = \"wing\"\n", "");
    Problems problems;
    CHECK(change_set(unnamed, {{"flag.flag 1", "false", {}}}, problems) ==
          unnamed.substr(0, unnamed.find("[[flag]]")));
    CHECK(problems.empty());
    change_set(unnamed, {{"flag.flag 2", "false", {}}}, problems);
    REQUIRE(!problems.empty());
    CHECK(to_string(problems.all().front())
              .find("none of the name \"flag 2\"; did you mean "
                    "\"flag 1\"?") != std::string::npos);
}

TEST_CASE("an address that the set does not have is reported with the nearest one") {
    const Place at{"night.toml", 4, 1};
    CHECK(
        changed_set({{"fixtur.moon.cct_k", "1", at}}) ==
        "night.toml:4:1: fixtur.moon.cct_k: the set has no \"fixtur\"; did you mean \"fixture\"?");
    CHECK(changed_set({{"fixture.mon.cct_k", "1", at}}) ==
          "night.toml:4:1: fixture.mon.cct_k: the set has none of the name \"mon\"; did you mean "
          "\"moon\"?");
    CHECK(changed_set({{"moon.cct_k", "1", at}}) ==
          "night.toml:4:1: moon.cct_k: the set has no \"moon\"; did you mean "
          "\"fixture.moon.cct_k\"?");
    CHECK(changed_set({{"flag", "false", at}}) ==
          "night.toml:4:1: flag: needs a name after \"flag\"; there are \"wing\"");
    CHECK(changed_set({{"camera", "1", at}}).find("name one of its keys") != std::string::npos);
    CHECK(changed_set({{"flag.wing", "3", at}}).find("true, false") != std::string::npos);
    CHECK(changed_set({{"camera.iso", "= 3", at}}).starts_with("night.toml:4:1: camera.iso: "));
    CHECK(changed_set({{"camera.iso.fast", "3", at}}).find("is not a table") != std::string::npos);
}

TEST_CASE("a table without a name is found by its place in the file") {
    const std::string two =
        "[[window]]\nturn = 1\n[[window]]\nname = \"b\"\n[[window]]\nturn = 3\n";
    Problems problems;
    CHECK(change_set(two, {{"window.#3.turn", "4", {}}}, problems) ==
          "[[window]]\nturn = 1\n[[window]]\nname = \"b\"\n[[window]]\nturn = 4\n");
    CHECK(change_set(two, {{"window.#1", "false", {}}}, problems) ==
          "[[window]]\nname = \"b\"\n[[window]]\nturn = 3\n");
    CHECK(change_set(two, {{"window.#1.wide", "2", {}}}, problems) ==
          "[[window]]\nwide = 2\nturn = 1\n[[window]]\nname = \"b\"\n[[window]]\nturn = 3\n");
    CHECK(problems.empty());
    change_set(two, {{"window.#4.turn", "4", {}}}, problems);
    CHECK(problems.all().size() == 1);
}
