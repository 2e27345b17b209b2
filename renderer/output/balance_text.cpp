#include "output/balance_text.h"

#include <cmath>

#include "base/number_words.h"
#include "develop/exposure.h"
#include "film/printed_error.h"
#include "output/json_parts.h"
#include "output/text_table.h"

namespace dapple {

namespace {

using Json = nlohmann::ordered_json;
using Rows = std::vector<std::vector<std::string>>;

constexpr double kNoChange = 0.0005;  // of a dimmer; a thousandth is the last digit shown
constexpr double kNoStops = 0.05;     // half of the last digit shown
constexpr double kNearlyOff = 2 * kLeastDimmer;

bool is_changed(const Fixture& was, const Fixture& is) {
    return std::abs(was.dimmer - is.dimmer) >= static_cast<float>(kNoChange);
}

// A reading that the balance changes: a meter or a region.
struct Change {
    std::string name;
    double stops = 0;  // from before to after
};

double stops_between(const GroupMeans& was, const GroupMeans& is) {
    return stops_from_ratio(is.sum() / was.sum());
}

std::vector<Change> find_changes(const FilmRecord& before, const FilmRecord& after) {
    std::vector<Change> changes;
    for (size_t m = 0; m < before.meters.size(); ++m) {
        changes.push_back({before.meters[m].meter.name,
                           stops_between(before.meters[m].lux, after.meters[m].lux)});
    }
    for (size_t r = 0; r < before.regions.size(); ++r) {
        changes.push_back({before.regions[r].region.name,
                           stops_between(before.regions[r].luminance, after.regions[r].luminance)});
    }
    changes.push_back({"whole frame", stops_between(before.frame, after.frame)});
    return changes;
}

std::string target_error_text(const TargetResult& result, int passes) {
    const auto shown = printed_error(result.stderr_stops, passes);
    if (!shown) return "not known yet";
    return *shown < 0.005 ? "< 0.01" : formatted("± %.2f", *shown);
}

std::string target_verdict(const TargetResult& result) {
    if (result.is_reached()) return "reached";
    const double missed = result.missed_stops();
    return formatted(
        "not reached: %.1f stops too %s",
        std::abs(missed),
        result.target.against ? (missed > 0 ? "high" : "low") : (missed > 0 ? "bright" : "dark"));
}

std::string sides_text(const FilmRecord& film, const Target& target) {
    const std::string light = spot_text(film, target.light);
    return target.against ? light + " : " + spot_text(film, *target.against) : light;
}

std::string limits_text(const Balance& balance, const FilmRecord& before) {
    std::string full;
    std::string dark;
    for (size_t f = 0; f < balance.fixtures.size(); ++f) {
        const Fixture& is = balance.fixtures[f];
        if (is.is_window || !is_changed(before.fixtures[f], is)) continue;
        if (is.dimmer >= 1) full += (full.empty() ? "" : ", ") + is.name;
        if (static_cast<double>(is.dimmer) <= kLeastDimmer) {
            dark += (dark.empty() ? "" : ", ") + is.name;
        }
    }
    std::string text;
    if (!full.empty()) text += "At full: " + full + ".\n";
    if (!dark.empty()) text += "As good as off: " + dark + ".\n";
    return text;
}

// "Every target would be reached if fill gave 1.4 stops more than at full."
std::string wanting_text(const std::vector<Wanting>& wanting, const FilmRecord& film) {
    std::string list;
    for (const Wanting& w : wanting) {
        const std::string stops = formatted("%.1f", w.stops);
        list += (list.empty() ? "" : ", and ") + film.fixtures[w.fixture].name + " gave " + stops +
                (stops == "1.0" ? " stop" : " stops") + " more than at full";
    }
    return list.empty() ? "" : "Every target would be reached if " + list + ".\n";
}

// "Careful: this turns off the only lamp that is on, key." Empty while a lamp stays on.
std::string all_off_text(const Balance& balance, const FilmRecord& before) {
    std::string lamps;
    int count = 0;
    for (size_t f = 0; f < balance.fixtures.size(); ++f) {
        const Fixture& is = balance.fixtures[f];
        if (is.is_window || !(before.fixtures[f].dimmer > 0)) continue;
        if (static_cast<double>(is.dimmer) > kNearlyOff) return "";
        lamps += (count++ == 0 ? "" : ", ") + is.name;
    }
    if (count == 0) return "";
    const std::string which = count == 1 ? "the only lamp that is on, " : "all lamps: ";
    return "Careful: these dimmers turn off " + which + lamps + ".\n";
}

// "Only ratios: key at face keeps its level." Or by how much it could not.
std::string held_text(const Balance& balance, const FilmRecord& film) {
    if (balance.held.empty()) return "";
    std::string kept;
    std::string moved;
    for (const HeldLevel& h : balance.held) {
        const std::string name = spot_text(film, h.light);
        if (std::abs(h.moved_stops()) < kNoStops) {
            kept += (kept.empty() ? "" : ", ") + name;
        } else {
            moved += (moved.empty() ? "" : ", ") + name + " " + signed_number(h.moved_stops(), 1);
        }
    }
    std::string text = "Only ratios are wanted, so their brighter sides keep their level";
    if (!moved.empty()) text += " as far as the lamps allow; in stops: " + moved;
    if (!kept.empty()) text += (moved.empty() ? ": " : "; as before: ") + kept;
    return text + ".\n";
}

Rows target_rows(const Balance& balance, const FilmRecord& film) {
    Rows rows = {{"target", "light", "before", "after", "stops", ""}};
    for (const TargetResult& r : balance.results) {
        rows.push_back({r.target.text,
                        sides_text(film, r.target),
                        value_text(film, r.target, r.before),
                        value_text(film, r.target, r.after),
                        target_error_text(r, film.run.passes),
                        target_verdict(r)});
    }
    return rows;
}

Rows dimmer_rows(const Balance& balance, const FilmRecord& before) {
    Rows rows = {{"fixture", "before", "dimmer", "stops"}};
    for (size_t f = 0; f < balance.fixtures.size(); ++f) {
        const double was = before.fixtures[f].dimmer;
        const double is = balance.fixtures[f].dimmer;
        if (!is_changed(before.fixtures[f], balance.fixtures[f])) continue;
        rows.push_back({balance.fixtures[f].name,
                        formatted("%.3f", was),
                        formatted("%.3f", is),
                        signed_number(std::log2(is / was), 2)});
    }
    return rows;
}

}  // namespace

std::string balance_json_text(const Balance& balance,
                              const FilmRecord& before,
                              const FilmRecord& after,
                              const std::vector<std::string>& reasons,
                              const std::vector<Wanting>& wanting) {
    Json file = {{"reached", Json::array()},
                 {"dimmers", Json::array()},
                 {"wanting", Json::array()},
                 {"held", Json::array()},
                 {"changes", Json::array()}};
    for (size_t i = 0; i < balance.results.size(); ++i) {
        const TargetResult& r = balance.results[i];
        file["reached"].push_back(
            {{"target", r.target.text},
             {"light", sides_text(before, r.target)},
             {"wanted", json_number(value_in_unit(before, r.target, r.target.wanted))},
             {"before", json_number(value_in_unit(before, r.target, r.before))},
             {"value", json_number(value_in_unit(before, r.target, r.after))},
             {"text", value_text(before, r.target, r.after)},
             {"missed_stops", json_number(r.missed_stops())},
             {"stderr_stops", json_number(r.stderr_stops)},
             {"is_reached", r.is_reached()},
             {"why_missed", reasons[i].empty() ? Json(nullptr) : Json(reasons[i])}});
    }
    for (size_t f = 0; f < balance.fixtures.size(); ++f) {
        if (balance.fixtures[f].is_window) continue;
        file["dimmers"].push_back({{"fixture", balance.fixtures[f].name},
                                   {"dimmer", json_number(balance.fixtures[f].dimmer)},
                                   {"before", json_number(before.fixtures[f].dimmer)}});
    }
    for (const Wanting& w : wanting) {
        file["wanting"].push_back({{"fixture", before.fixtures[w.fixture].name},
                                   {"stops_above_full", json_number(w.stops)}});
    }
    for (const HeldLevel& h : balance.held) {
        file["held"].push_back(
            {{"light", spot_text(before, h.light)}, {"moved_stops", json_number(h.moved_stops())}});
    }
    for (const Change& change : find_changes(before, after)) {
        file["changes"].push_back({{"name", change.name}, {"stops", json_number(change.stops)}});
    }
    return json_text(file);
}

std::string balance_table_text(const Balance& balance,
                               const FilmRecord& before,
                               const FilmRecord& after,
                               const std::vector<std::string>& reasons,
                               const std::vector<Wanting>& wanting) {
    std::string text = table_text(target_rows(balance, before));
    for (size_t i = 0; i < reasons.size(); ++i) {
        if (!reasons[i].empty()) text += balance.results[i].target.text + ": " + reasons[i] + "\n";
    }
    text += "\n";
    const Rows dimmers = dimmer_rows(balance, before);
    text += dimmers.size() > 1 ? table_text(dimmers) : "All dimmers stay as they are.\n";
    text += limits_text(balance, before) + wanting_text(wanting, before) +
            all_off_text(balance, before) + held_text(balance, before);
    std::string costs;
    for (const Change& change : find_changes(before, after)) {
        if (!(std::abs(change.stops) >= kNoStops)) continue;
        costs += (costs.empty() ? "" : ", ") + change.name + " " + signed_number(change.stops, 1);
    }
    return text + "\nWhat changes, in stops: " + (costs.empty() ? "nothing" : costs) + "\n";
}

}  // namespace dapple
