#include "desk/event_board.h"

#include <chrono>

namespace dapple {

void EventBoard::post(const std::string& kind, std::string json) {
    {
        const std::lock_guard lock(mutex_);
        messages_[kind] = {++last_, std::move(json)};
    }
    changed_.notify_all();
}

std::string EventBoard::news_after(uint64_t& seen) const {
    std::map<uint64_t, std::string> news;  // in the order in which they were posted
    for (const auto& [kind, message] : messages_) {
        if (message.number <= seen) continue;
        news[message.number] = "event: " + kind + "\ndata: " + message.json + "\n\n";
    }
    seen = last_;
    std::string lines;
    for (const auto& [number, text] : news) lines += text;
    return lines;
}

std::string EventBoard::wait_for_news(uint64_t& seen, double seconds) {
    std::unique_lock lock(mutex_);
    changed_.wait_for(
        lock, std::chrono::duration<double>(seconds), [&] { return closed_ || last_ > seen; });
    return news_after(seen);
}

void EventBoard::close() {
    {
        const std::lock_guard lock(mutex_);
        closed_ = true;
    }
    changed_.notify_all();
}

bool EventBoard::is_closed() const {
    const std::lock_guard lock(mutex_);
    return closed_;
}

}  // namespace dapple
