// The first Ctrl-C stops the work after the present pass, a second one stops the program at once.
#pragma once

namespace dapple {

void watch_for_interrupt();
bool interrupted();

}  // namespace dapple
