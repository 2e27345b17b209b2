#include "desk/desk.h"

#include <nlohmann/json.hpp>

#include "desk/desk_json.h"
#include "render/packing/make_day_sheet.h"
#include "set/change_set.h"

namespace dapple {

namespace {

using Json = nlohmann::ordered_json;

std::string first_line_of(const Problems& problems) {
    return problems.empty() ? "" : to_string(problems.all().front());
}

}  // namespace

Desk::Desk(const std::string& set, const LiveFrame::Limits& limits)
    : history_(set),
      frame_(set,
             limits,
             {.on_problems =
                  [this](uint64_t version, const Problems& problems) {
                      news_.post("problems", problems_json(version, problems));
                  },
              .on_set =
                  [this](uint64_t version, const LoadedSet& loaded) {
                      const DaySheet sheet = make_day_sheet(loaded.scene, loaded.world, {});
                      news_.post("drawing", drawing_json(version, sheet));
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
                  }}) {
    news_.post("kit", kit_json(set));
    tell_set(false);
}

Desk::~Desk() {
    seek_.stop();  // it uses the frame
    news_.close();
}

void Desk::post_set() {
    told_outside_ = history_.changed_outside().has_value();
    news_.post("set", set_json(history_));
}

void Desk::tell_set(bool is_moving) {
    post_set();
    frame_.show({history_.text(), history_.version(), is_moving});
}

std::string Desk::picture() const {
    const std::lock_guard lock(mutex_);
    return picture_;
}

void Desk::look_outside() {
    const std::lock_guard lock(mutex_);
    if (history_.changed_outside().has_value() != told_outside_) post_set();
}

std::string Desk::change(const std::string& json) {
    const Json request = Json::parse(json);
    std::vector<SetChange> changes;
    for (const Json& item : request.at("changes")) {
        changes.push_back({item.at("address"), item.at("value"), {}});
    }
    Problems problems;
    std::string text = change_set(history_.text(), changes, problems);
    if (!problems.empty()) return first_line_of(problems);
    history_.put(std::move(text), request.value("gesture", ""));
    tell_set(request.value("moving", false));
    return "";
}

std::string Desk::act(const std::string& request) {
    const std::lock_guard lock(mutex_);
    try {
        const Json json = Json::parse(request);
        const std::string what = json.at("do");
        if (what == "change") return change(request);
        if (what.starts_with("seek")) return seek_.act(request, history_.path(), history_.text());
        if (what == "undo") {
            history_.undo();
        } else if (what == "redo") {
            history_.redo();
        } else if (what == "save" || what == "save_over") {
            history_.save(what == "save_over");
            post_set();
            return "";
        } else if (what == "reload") {
            history_.reload();
        } else if (what == "take_left_over") {
            history_.take_left_over();
        } else if (what == "drop_left_over") {
            history_.drop_left_over();
        } else if (what == "text") {
            history_.put(json.at("text"), json.value("gesture", ""));
        } else {
            return "the desk cannot \"" + what + "\"";
        }
        tell_set(false);
    } catch (const Json::exception&) {
        return "the page sent a request that the desk does not understand; load the page again";
    } catch (const std::exception& error) {
        return error.what();
    }
    return "";
}

}  // namespace dapple
