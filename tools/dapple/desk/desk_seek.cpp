#include "desk/desk_seek.h"

#include <algorithm>
#include <nlohmann/json.hpp>

#include "base/kept_parts.h"
#include "output/jpeg_bytes.h"
#include "render/work_watch.h"

namespace dapple {

namespace {

using SeekJson = nlohmann::ordered_json;

constexpr size_t kShownPlaces = 12;
constexpr int kThumbnailQuality = 88;
constexpr int kMostSeekTries = 2000;
constexpr size_t kSeekKept = size_t{128} << 20U;  // bytes

SearchWords words_of_request(const SeekJson& request) {
    SearchWords words;
    words.thing = request.at("thing");
    words.within = request.value("within", 0.0);
    words.vary = request.value("vary", std::vector<std::string>());
    words.wants = request.value("wants", std::vector<std::string>());
    return words;
}

SeekJson changes_json(const std::vector<SetChange>& changes) {
    SeekJson list = SeekJson::array();
    for (const SetChange& c : changes) list.push_back({{"address", c.address}, {"value", c.value}});
    return list;
}

}  // namespace

std::string DeskSeek::act(const std::string& request,
                          const std::string& set_path,
                          const std::string& set_text) {
    const SeekJson json = SeekJson::parse(request);
    stop();
    if (json.at("do") == "seek_stop") return "";
    Problems problems;
    SearchQuestion question = ask_search(set_path, set_text, words_of_request(json), problems);
    if (!problems.empty()) return to_string(problems.all().front());
    const int tries = std::clamp(json.value("tries", 120), 1, kMostSeekTries);
    {
        const std::lock_guard lock(mutex_);
        ++run_;
        made_.clear();
        pictures_.clear();
        now_.clear();
        now_score_ = {};
    }
    stopping_ = false;
    thread_ = std::thread([this, question, tries] { search_and_tell(question, tries); });
    return "";
}

void DeskSeek::stop() {
    stopping_ = true;
    if (thread_.joinable()) thread_.join();
}

void DeskSeek::search_and_tell(const SearchQuestion& question, int tries) {
    std::string why;
    on_running_(true);
    try {
        {
            const std::lock_guard lock(mutex_);
            tell(question, tries, true, "");
        }
        search(question, tries);
    } catch (const StoppedWork&) {
        // The places so far stay.
    } catch (const std::exception& error) {
        why = error.what();
    }
    on_running_(false);
    const std::lock_guard lock(mutex_);
    tell(question, tries, false, why);
}

void DeskSeek::search(const SearchQuestion& question, int tries) {
    const KeepParts parts(kSeekKept);
    Problems problems;
    const PlaceRater rater(question, problems);
    if (!problems.empty()) throw std::runtime_error(to_string(problems.all().front()));
    SearchListeners listeners;
    listeners.goes_on = [this] { return !stopping_; };
    listeners.wants_picture = [this](const PlaceRating& rating) { return may_be_shown(rating); };
    listeners.on_try = [&](const SearchTry& made) {
        const std::lock_guard lock(mutex_);
        add(made);
        tell(question, tries, true, "");
    };
    const PlaceRating now =
        rater.rate({}, {listeners.goes_on, [](const PlaceRating&) { return true; }, {}});
    {
        const std::lock_guard lock(mutex_);
        now_score_ = now.score;
        now_ = now.unusable.empty() ? words_for_measures(question.wishes, now.measures) : "";
    }
    std::vector<SearchTry> all;
    run_search(question, rater, tries, all, listeners);
    if (!all.empty() && rated_tries(all) == 0) throw std::runtime_error(commonest_trouble(all));
}

// Cleaning a picture takes a while, so it is made of the better half of all tries only.
bool DeskSeek::may_be_shown(const PlaceRating& rating) const {
    if (!rating.score) return false;
    const std::lock_guard lock(mutex_);
    size_t better = 0;
    for (const SearchTry& t : made_) {
        better += t.is_usable() && t.rating.score && *t.rating.score < *rating.score ? 1U : 0U;
    }
    return better < kShownPlaces || 2 * better <= made_.size();
}

// How many places do better than the set as it is; -1: not known.
int DeskSeek::better_than_now() const {
    if (!now_score_) return -1;
    return static_cast<int>(std::count_if(made_.begin(), made_.end(), [&](const SearchTry& t) {
        return t.is_usable() && t.rating.score && *t.rating.score < *now_score_;
    }));
}

void DeskSeek::add(SearchTry made) {
    if (made.rating.picture) {
        pictures_[static_cast<int>(made_.size())] =
            jpeg_bytes(*made.rating.picture, kThumbnailQuality);
    }
    made.rating.picture.reset();
    made_.push_back(std::move(made));
}

void DeskSeek::tell(const SearchQuestion& question,
                    int tries,
                    bool is_running,
                    const std::string& why) {
    SeekJson json = {{"run", run_},
                     {"thing", question.space.address},
                     {"running", is_running},
                     {"tried", rated_tries(made_)},
                     {"left_out", static_cast<int>(made_.size()) - rated_tries(made_)},
                     {"tries", tries},
                     {"now", now_},
                     {"better", better_than_now()},
                     {"why", why},
                     {"places", SeekJson::array()}};
    for (const size_t i : chosen_tries(made_, kShownPlaces)) {
        if (!pictures_.contains(static_cast<int>(i))) continue;
        json["places"].push_back(
            {{"number", i},
             {"words", words_for_place(made_[i].changes)},
             {"measures", words_for_measures(question.wishes, made_[i].rating.measures)},
             {"changes", changes_json(made_[i].changes)}});
    }
    news_.post("seek", json.dump(-1, ' ', false, SeekJson::error_handler_t::replace));
}

std::string DeskSeek::picture(int number) const {
    const std::lock_guard lock(mutex_);
    const auto found = pictures_.find(number);
    return found == pictures_.end() ? "" : found->second;
}

}  // namespace dapple
