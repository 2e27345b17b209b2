// The line that shows the progress of long work: the step being done, then passes, rays per second,
// noise and time left.
#pragma once

#include <optional>
#include <string>

#include "render/render_frame.h"

namespace dapple {

// "2 min 05 s"
std::string duration_text(double seconds);

// Overwrites one line on a terminal; elsewhere prints a new line every ten seconds.
class ProgressLine {
  public:
    ProgressLine();
    ~ProgressLine() { end(); }
    ProgressLine(const ProgressLine&) = delete;
    ProgressLine& operator=(const ProgressLine&) = delete;

    void show(const Progress& progress);      // after a pass
    void show(const WorkPart& part);          // within a pass or before the first
    void show_step(const std::string& step);  // other work, such as reading the set
    // Puts `what` before the steps of the work that follows; empty: nothing.
    void set_work(const std::string& what) { work_ = what; }
    void end();

  private:
    void put(const std::string& text, double due);

    Clock clock_;
    bool terminal_ = false;
    bool shown_ = false;
    double next_ = 0;  // s, when the next line is due
    std::string work_;
    std::optional<Progress> last_;  // of the passes
    double last_at_ = 0;            // s, when it was shown
};

}  // namespace dapple
