#include <sectio/desk/connections.hpp>

#include <sys/socket.h>

namespace sectio::desk {

void Connections::opened(int socket) {
    known_[socket] = {true, ++count_};
    if (known_.size() < most_)
        return;
    auto longest = known_.end();
    for (auto each = known_.begin(); each != known_.end(); ++each)
        if (each->second.idle && each->first != socket
            && (longest == known_.end() || each->second.last < longest->second.last))
            longest = each;
    if (longest == known_.end())
        return;
    longest->second.idle = false;
    shutdown(longest->first, SHUT_RDWR); // the server sees its end, and closes it
}

} // namespace sectio::desk
