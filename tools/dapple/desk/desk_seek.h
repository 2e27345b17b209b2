// "Find me a place" on the desk: a search in a thread of its own, whose dozen of places is told to
// the page as it is found. The frame gives way meanwhile.
#pragma once

#include <atomic>
#include <functional>
#include <map>
#include <mutex>
#include <string>
#include <thread>
#include <vector>

#include "desk/event_board.h"
#include "search/run_search.h"

namespace dapple {

class DeskSeek {
  public:
    // `on_running`: called by the search's thread when it begins and ends.
    DeskSeek(EventBoard& news, std::function<void(bool)> on_running)
        : news_(news), on_running_(std::move(on_running)) {}
    ~DeskSeek() { stop(); }
    DeskSeek(const DeskSeek&) = delete;
    DeskSeek& operator=(const DeskSeek&) = delete;

    // Does what the page asks for:
    //   {"do": "seek", "thing": "glass.jar", "within": 0.3, "vary": ["turn=0..15"],
    //    "wants": ["back wall.texture=more"], "tries": 120}
    //   {"do": "seek_stop"}
    // Returns "" or one line that says what is wrong.
    std::string act(const std::string& request,
                    const std::string& set_path,
                    const std::string& set_text);

    // Ends the search, if one is running; its places stay.
    void stop();

    // What a try looks like, as JPEG; "" if it has no picture.
    std::string picture(int number) const;

  private:
    void search(const SearchQuestion& question, int tries);
    void search_and_tell(const SearchQuestion& question, int tries);
    void add(SearchTry made);
    // The caller holds the mutex.
    void tell(const SearchQuestion& question, int tries, bool is_running, const std::string& why);
    int better_than_now() const;
    bool may_be_shown(const PlaceRating& rating) const;

    EventBoard& news_;
    std::function<void(bool)> on_running_;
    std::thread thread_;
    std::atomic<bool> stopping_ = false;
    mutable std::mutex mutex_;  // of what follows
    int run_ = 0;               // counts searches, so that a page sees old pictures as old
    std::string now_;           // what the set measures as it is
    Measure now_score_;         // the less the better
    std::vector<SearchTry> made_;
    std::map<int, std::string> pictures_;  // by the number of a try
};

}  // namespace dapple
