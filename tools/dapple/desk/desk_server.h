// The desk over HTTP, on this machine only.
//
// The server listens on 127.0.0.1. Every path begins with a token that only the address printed by
// the command has. Requests that name another host, or that a page of another origin sends, are
// refused. So no other page in the same browser can read or change the set.
#pragma once

#include <functional>
#include <memory>
#include <string>

#include "desk/desk.h"

namespace dapple {

class DeskServer {
  public:
    // `port` 0: any that is free. Throws FileError if the port is taken.
    DeskServer(Desk& desk, int port);
    ~DeskServer();

    // "http://127.0.0.1:40123/7f…/"
    const std::string& address() const;
    // Serves until should_end() is true, which is asked a few times per second.
    void serve(const std::function<bool()>& should_end);

  private:
    struct Parts;
    std::unique_ptr<Parts> parts_;
};

}  // namespace dapple
