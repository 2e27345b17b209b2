// The news of the desk: of each kind the latest message only, so a slow page misses steps and
// never falls behind.
#pragma once

#include <condition_variable>
#include <cstdint>
#include <map>
#include <mutex>
#include <string>

namespace dapple {

class EventBoard {
  public:
    void post(const std::string& kind, std::string json);

    // What is newer than `seen`, as lines of server-sent events (WHATWG HTML, section 9.2), after
    // waiting for it up to `seconds`; "" if nothing came. Raises `seen`.
    std::string wait_for_news(uint64_t& seen, double seconds);

    // Every wait ends now.
    void close();
    bool is_closed() const;

  private:
    struct Message {
        uint64_t number = 0;
        std::string json;
    };

    std::string news_after(uint64_t& seen) const;

    mutable std::mutex mutex_;
    std::condition_variable changed_;
    uint64_t last_ = 0;
    std::map<std::string, Message> messages_;
    bool closed_ = false;
};

}  // namespace dapple
