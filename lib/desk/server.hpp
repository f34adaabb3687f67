#pragma once
/// @file
/// Private to lib/desk: the desk's server: HTTP on the loopback address alone, one request after
/// the other in the thread that calls run(). No thread of it is there while other work is forked
/// off.

#include <sectio/desk/request.hpp>

#include <chrono>
#include <filesystem>
#include <functional>
#include <memory>

namespace sectio::desk {

/// What the server asks of whom it serves. Neither may throw.
struct Service {
    /// Whether the request may go on: called when its head has come, before any of its body.
    std::function<bool(const Request&)> admits;
    std::function<Reply(const Request&)> answer;
    std::filesystem::path incoming; ///< the folder for bodies of PUT, which `answer` takes away
};

class Server {
  public:
    /// @throws Error http_library_missing
    explicit Server(Service service);
    Server(const Server&) = delete;
    Server& operator=(const Server&) = delete;
    ~Server();

    /// Listens on 127.0.0.1, on one port more. Port 0 is any that is free. @return the port
    /// @throws Error port_taken
    int listen(int port);
    /// Answers what comes in, for about so long.
    void run(std::chrono::milliseconds time);

  private:
    struct State;
    std::unique_ptr<State> state_;
};

} // namespace sectio::desk
