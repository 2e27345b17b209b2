#include "desk/desk.h"

#include <filesystem>
#include <nlohmann/json.hpp>

#include "desk/desk_json.h"
#include "desk/kept_versions.h"
#include "desk/new_set.h"
#include "render/packing/make_day_sheet.h"
#include "set/change_set.h"

namespace dapple {

namespace {

using Json = nlohmann::ordered_json;

constexpr double kTellEvery = 0.1;  // s, while something is dragged

std::string first_line_of(const Problems& problems) {
    return problems.empty() ? "" : to_string(problems.all().front());
}

// A light meter held on these reads what the film shows (judge/point_reading.h).
std::vector<bool> matte_surfaces(const Scene& scene) {
    std::vector<bool> matte;
    for (const Material& m : scene.materials) {
        matte.push_back(m.kind == MaterialKind::kLambertian);
    }
    return matte;
}

}  // namespace

Desk::Desk(const std::string& set, const LiveFrame::Limits& limits)
    : history_(set.empty() ? SetHistory(path_of_new_set(), first_set_text()) : SetHistory(set)),
      frame_(limits, listeners()) {
    news_.post("kit", kit_json(history_.path()));
    post_versions();
    tell_set(false);
}

Desk::~Desk() {
    seek_.stop();  // it uses the frame
    news_.close();
}

LiveFrame::Listeners Desk::listeners() {
    return {
        .on_problems =
            [this](uint64_t version, const Problems& problems) {
                is_wrong_ = !problems.empty();
                news_.post("problems", problems_json(version, problems));
            },
        .on_set =
            [this](uint64_t version, const LoadedSet& loaded) {
                const DaySheet sheet = make_day_sheet(loaded.scene, loaded.world, {});
                news_.post("drawing", drawing_json(version, sheet, loaded.scene.columns));
                film_.put_matte(matte_surfaces(loaded.scene));
            },
        .on_picture =
            [this](LivePicture picture) {
                uint64_t number = 0;
                {
                    const std::lock_guard lock(mutex_);
                    picture_ = picture.png;
                    number = ++pictures_;
                }
                news_.post("picture", picture_json(number, picture));
            },
        .on_doubts = [this](uint64_t,
                            const Doubts& doubts) { news_.post("doubts", doubts_json(doubts)); },
        .on_film =
            [this](const LiveText& text, std::shared_ptr<const FilmRecord> film) {
                const uint64_t number =
                    film_.put(text.version, std::move(film), tables_text(text.text));
                news_.post("film", film_json(number, text.version, text.is_moving));
            }};
}

void Desk::post_set() {
    told_outside_ = history_.changed_outside().has_value();
    news_.post("set", set_json(history_, merged_));
}

void Desk::post_versions() {
    news_.post("versions", versions_json(KeptVersions(history_.path()).names()));
}

void Desk::tell_set(bool is_moving) {
    frame_.show({history_.path(), history_.text(), history_.version(), is_moving});
    // What is dragged moves in the page by itself, and the frame needs the time.
    if (is_moving && told_set_.seconds() < kTellEvery) return;
    told_set_ = Clock();
    post_set();
}

std::string Desk::picture() const {
    const std::lock_guard lock(mutex_);
    return picture_;
}

uint64_t Desk::version() const {
    const std::lock_guard lock(mutex_);
    return history_.version();
}

void Desk::look_outside() {
    const std::lock_guard lock(mutex_);
    if (history_.merge_outside()) {
        merged_ = history_.version();
        tell_set(false);
    } else if (history_.try_to_keep() || history_.changed_outside().has_value() != told_outside_) {
        post_set();
    }
}

std::string Desk::change(const Json& request) {
    std::vector<SetChange> changes;
    for (const Json& item : request.at("changes")) {
        changes.push_back({item.at("address"), item.at("value"), {}});
    }
    Problems problems;
    std::string text = change_set(history_.text(), changes, problems);
    if (!problems.empty()) return first_line_of(problems);
    const bool is_moving = request.value("moving", false);
    history_.put(std::move(text), request.value("gesture", ""), is_moving);
    if (is_moving && request.value("shown", false)) {
        frame_.pause();
        post_set();
    } else {
        tell_set(is_moving);
    }
    return "";
}

bool Desk::do_step(const std::string& what, const Json& request) {
    if (what == "undo") {
        if (merged_ == history_.version()) merged_.reset();
        history_.undo();
    } else if (what == "redo") {
        history_.redo();
    } else if (what == "reload") {
        history_.reload();
    } else if (what == "take_left_over") {
        history_.take_left_over();
    } else if (what == "drop_left_over") {
        history_.drop_left_over();
    } else if (what == "text") {
        history_.put(request.at("text"), request.value("gesture", ""));
    } else if (what == "new") {
        std::string text = new_set_text(request);
        if (history_.has_file() || !history_.is_untouched()) {
            history_.put(std::move(text), "");
        } else {
            history_.begin_with(std::move(text));
        }
    } else if (what == "open_version") {
        history_.put(KeptVersions(history_.path()).text_of(request.at("name")), "");
    } else {
        return false;
    }
    tell_set(false);
    return true;
}

bool Desk::do_file(const std::string& what, const Json& request) {
    if (what == "merge_seen") {
        merged_.reset();
        post_set();
        return true;
    }
    if (what == "save_as") {
        save_as(request);
    } else if (what == "save" || what == "save_over") {
        history_.save(what == "save_over");
    } else if (what != "keep") {
        return false;
    }
    if (what != "keep") merged_.reset();
    post_set();
    KeptVersions(history_.path()).keep(history_.text());
    post_versions();
    return true;
}

// The versions of a set that was no file go with it.
void Desk::save_as(const Json& request) {
    const std::string before = history_.path();
    const bool had_file = history_.has_file();
    history_.save_as(path_for_name(before, request.value("folder", ""), request.at("name")));
    if (!had_file) KeptVersions(before).move_to(history_.path());
    const bool is_elsewhere = folder_of_set(before) != folder_of_set(history_.path());
    // Problems name the file, and files that the set names may not be there.
    if (is_wrong_ || is_elsewhere) tell_set(false);
    if (is_elsewhere) news_.post("kit", kit_json(history_.path()));
}

std::string Desk::act(const std::string& request) {
    const std::lock_guard lock(mutex_);
    try {
        const Json json = Json::parse(request);
        const std::string what = json.at("do");
        if (what == "change") return change(json);
        if (what.starts_with("seek")) return seek_.act(request, history_.path(), history_.text());
        if (do_step(what, json) || do_file(what, json)) return "";
        return "the desk cannot \"" + what + "\"";
    } catch (const Json::exception&) {
        return "the page sent a request that the desk does not understand; load the page again";
    } catch (const std::exception& error) {
        return error.what();
    }
}

}  // namespace dapple
