// Ctrl-C asks the work to stop after the present pass; a second one stops the program at once.
#pragma once

namespace dapple {

void watch_for_interrupt();
bool interrupted();

}  // namespace dapple
