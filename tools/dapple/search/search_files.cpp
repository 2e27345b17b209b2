#include "search/search_files.h"

#include <cmath>
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>
#include <sstream>

#include "base/random.h"
#include "output/safe_file.h"

namespace dapple {

namespace {

using Json = nlohmann::ordered_json;
namespace fs = std::filesystem;

std::string search_file(const std::string& folder) {
    return (fs::path(folder) / "search.json").string();
}

Json number_or_none(const std::optional<double>& value) {
    return value && std::isfinite(*value) ? Json(*value) : Json(nullptr);
}

std::string fingerprint_word(uint64_t fingerprint) {
    std::ostringstream text;
    text << std::hex << fingerprint;
    return text.str();
}

Json measure_json(const Measure& measure) {
    return {{"value", number_or_none(measure.value)},
            {"stderr", number_or_none(measure.error)},
            {"why", measure ? Json(nullptr) : Json(measure.why)}};
}

Measure measure_of(const Json& json) {
    if (!json.at("value").is_number()) return Measure::unknown(json.at("why"));
    Measure measure{json.at("value").get<double>(), std::nullopt, {}};
    if (json.at("stderr").is_number()) measure.error = json.at("stderr").get<double>();
    return measure;
}

Json try_json(const SearchQuestion& question, const SearchTry& made) {
    Json values = Json::object();
    for (const SetChange& change : made.changes) values[change.address] = change.value;
    Json json = {{"u", made.u}, {"values", values}};
    json["unusable"] = made.is_usable() ? Json(nullptr) : Json(made.rating.unusable);
    if (!made.is_usable()) return json;
    Json measures = Json::object();
    for (size_t w = 0; w < question.wishes.size(); ++w) {
        measures[question.wishes[w].measure] = measure_json(made.rating.measures[w]);
    }
    json["measures"] = measures;
    json["score"] = measure_json(made.rating.score);
    json["look"] = Json::array();
    for (const float stops : made.rating.look) {
        json["look"].push_back(std::round(1000 * static_cast<double>(stops)) / 1000);
    }
    return json;
}

SearchTry try_of(const SearchQuestion& question, const Json& json) {
    SearchTry made{json.at("u"), {}, {}};
    made.changes = question.space.changes_at(made.u);
    if (json.at("unusable").is_string()) {
        made.rating.unusable = json.at("unusable");
        return made;
    }
    for (const Wish& wish : question.wishes) {
        made.rating.measures.push_back(measure_of(json.at("measures").at(wish.measure)));
    }
    made.rating.score = measure_of(json.at("score"));
    made.rating.look = json.at("look").get<std::vector<float>>();
    return made;
}

std::string csv_field(const std::string& text) {
    std::string quoted = "\"";
    for (const char c : text) quoted += c == '"' ? "\"\"" : std::string(1, c);
    return quoted + "\"";
}

std::string csv_of(const SearchQuestion& question, const std::vector<SearchTry>& tries) {
    std::ostringstream csv;
    csv << "try";
    for (const SetChange& c :
         question.space.changes_at(std::vector<double>(question.space.dimensions(), 0))) {
        csv << ',' << csv_field(c.address);
    }
    for (const Wish& wish : question.wishes) {
        csv << ',' << csv_field(wish.measure) << ',' << csv_field(wish.measure + " stderr");
    }
    csv << ",score,unusable\n";
    const auto number = [&](const Measure& m, const std::optional<double>& value) {
        csv << ',';
        if (m && value) csv << *value;
    };
    for (size_t i = 0; i < tries.size(); ++i) {
        csv << i + 1;
        for (const SetChange& c : tries[i].changes) csv << ',' << csv_field(c.value);
        for (size_t w = 0; w < question.wishes.size(); ++w) {
            const Measure m = tries[i].is_usable() ? tries[i].rating.measures[w] : Measure();
            number(m, m.value);
            number(m, m.error);
        }
        number(tries[i].rating.score, tries[i].rating.score.value);
        csv << ',' << (tries[i].is_usable() ? "" : csv_field(tries[i].rating.unusable)) << '\n';
    }
    return csv.str();
}

Json read_search(const std::string& path) {
    std::ifstream in(path, std::ios::binary);
    if (!in) throw FileError(path, "cannot be read; dapple search writes it");
    Json json = Json::parse(in, nullptr, false);
    if (!json.is_object()) throw FileError(path, "is not what dapple search has written");
    return json;
}

}  // namespace

uint64_t fingerprint_of(const SearchQuestion& question) {
    std::ostringstream text;
    text.precision(17);
    text << question.set_path << '\n' << question.set_text << '\n' << question.space.address;
    for (const double u : {0.0, 1.0}) {
        for (const SetChange& c :
             question.space.changes_at(std::vector<double>(question.space.dimensions(), u))) {
            text << '\n' << c.address << c.value;
        }
    }
    for (const Wish& w : question.wishes) {
        text << '\n' << w.measure << static_cast<int>(w.kind) << ' ' << w.want << ' ' << w.weight;
    }
    const QuickLook& look = question.look;
    text << '\n' << look.width << ' ' << look.passes << ' ' << look.more_passes << ' ' << look.seed;
    uint64_t hash = 1;
    for (const char c : text.str()) hash = mix_bits(hash, static_cast<unsigned char>(c));
    return hash;
}

void write_search(const std::string& folder,
                  const SearchQuestion& question,
                  const std::vector<SearchTry>& tries,
                  const SearchPlaces& places) {
    Json json = {{"set", question.set_path},
                 {"thing", question.space.address},
                 {"fingerprint", fingerprint_word(fingerprint_of(question))},
                 {"frame_px", question.look.width},
                 {"passes", question.look.passes},
                 {"places", Json::array()},
                 {"tries", Json::array()}};
    for (const auto& place : places) {
        json["places"].push_back(place ? Json(*place + 1) : Json(nullptr));
    }
    for (const SearchTry& made : tries) json["tries"].push_back(try_json(question, made));
    write_text(search_file(folder),
               json.dump(1, ' ', false, Json::error_handler_t::replace) + "\n");
    write_text((fs::path(folder) / "tries.csv").string(), csv_of(question, tries));
}

std::vector<SearchTry> read_tries(const std::string& folder, const SearchQuestion& question) {
    const std::string path = search_file(folder);
    if (!fs::exists(path)) return {};
    const Json json = read_search(path);
    if (json.value("fingerprint", "") != fingerprint_word(fingerprint_of(question))) {
        throw FileError(path,
                        "is another search, or the set was edited; --restart begins anew, or give "
                        "another folder with -o");
    }
    std::vector<SearchTry> tries;
    try {
        for (const Json& made : json.at("tries")) tries.push_back(try_of(question, made));
    } catch (const Json::exception&) {
        throw FileError(path, "is damaged; --restart begins anew");
    }
    return tries;
}

std::vector<SetChange> read_place(const std::string& folder, int number) {
    const std::string path = search_file(folder);
    const Json json = read_search(path);
    std::vector<SetChange> changes;
    try {
        const Json& places = json.at("places");
        if (number < 1 || static_cast<size_t>(number) > places.size()) {
            throw FileError(path,
                            "has no place " + std::to_string(number) + "; there are " +
                                std::to_string(places.size()));
        }
        if (places.at(static_cast<size_t>(number) - 1).is_null()) {
            throw FileError(path, "place " + std::to_string(number) + " is the set as it is");
        }
        const size_t made = places.at(static_cast<size_t>(number) - 1).get<size_t>() - 1;
        for (const auto& [address, value] : json.at("tries").at(made).at("values").items()) {
            changes.push_back({address, value.get<std::string>(), {path}});
        }
    } catch (const Json::exception&) {
        throw FileError(path, "is damaged; --restart begins anew");
    }
    return changes;
}

}  // namespace dapple
