#pragma once
/// @file
/// Private to lib/desk: the connections to its ports, so that programs that connect and say nothing
/// do not keep others out.

#include <cstddef>
#include <cstdint>
#include <map>

namespace sectio::desk {

/// Sockets in the order in which they were last heard of.
class Connections {
  public:
    explicit Connections(std::size_t most) : most_(most) {}

    /// A connection has come, in which nothing was asked yet. Where there are then as many as there
    /// may be, the one that has been without a request the longest is shut down.
    void opened(int socket);
    void closed(int socket) { known_.erase(socket); }
    /// A request has come in it.
    void asked(int socket) { known_[socket].idle = false; }
    /// The request has been answered.
    void answered(int socket) { known_[socket] = {true, ++count_}; }

  private:
    struct Known {
        bool idle = true; ///< no request is being answered, nor has the end been told
        std::uint64_t last = 0;
    };
    std::size_t most_;
    std::uint64_t count_ = 0;
    std::map<int, Known> known_;
};

} // namespace sectio::desk
