// Ctrl-C, and the request to end. Before there is anything to keep, they end the program at once.
// Afterwards the first one stops the work, and a second one ends the program.
#pragma once

namespace dapple {

// Until watch_for_interrupt: the program ends with a line that says so.
void end_at_interrupt();
void watch_for_interrupt();
bool interrupted();

}  // namespace dapple
