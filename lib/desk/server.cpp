#include <sectio/base/limits.hpp>
#include <sectio/desk/connections.hpp>
#include <sectio/desk/microhttpd.hpp>
#include <sectio/desk/server.hpp>

#include <arpa/inet.h>
#include <fcntl.h>
#include <fmt/format.h>
#include <poll.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <fstream>
#include <vector>

namespace sectio::desk {

namespace {

/// One request on its way in, and the file that its body goes to.
struct Exchange {
    Request request;
    bool admitted = false;
    std::size_t bytes = 0;
    std::ofstream file;

    ~Exchange() {
        std::error_code ignored;
        if (!request.body.empty())
            std::filesystem::remove(request.body, ignored); // not there any more if it was taken
    }
    bool too_large() const { return bytes > limits::desk_file_bytes; }
};

MHD_Result keep_argument(void* to, MHD_ValueKind, const char* name, const char* value) {
    static_cast<Request*>(to)->arguments.emplace(name, value ? value : "");
    return MHD_YES;
}

std::optional<std::string> header(MHD_Connection* connection, const char* name) {
    const char* value = http().value(connection, MHD_HEADER_KIND, name);
    return value ? std::optional<std::string>(value) : std::nullopt;
}

Request head_of(MHD_Connection* connection, const char* method, const char* path) {
    Request request{method,
                    path,
                    header(connection, "Host"),
                    header(connection, "Origin"),
                    header(connection, "Sec-Fetch-Site"),
                    {},
                    {}};
    http().values(connection, MHD_GET_ARGUMENT_KIND, keep_argument, &request);
    return request;
}

int socket_of(MHD_Connection* connection) {
    return http().connection_info(connection, MHD_CONNECTION_INFO_CONNECTION_FD)->connect_fd;
}

/// A response with the file, or nothing where it is gone.
MHD_Response* file_response(const std::filesystem::path& file) {
    const int descriptor = open(file.c_str(), O_RDONLY | O_CLOEXEC);
    struct stat known;
    if (descriptor < 0 || fstat(descriptor, &known) != 0)
        return nullptr;
    return http().from_file(static_cast<std::uint64_t>(known.st_size), descriptor);
}

MHD_Response* text_response(const std::string& text) {
    return http().from_buffer(text.size(), const_cast<char*>(text.data()), MHD_RESPMEM_MUST_COPY);
}

/// A file name in a header: RFC 6266, with the extended notation of RFC 8187.
std::string disposition(const std::string& name) {
    std::string coded;
    for (const char c : name)
        coded += std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '.' || c == '-'
                     ? std::string(1, c)
                     : fmt::format("%{:02X}", static_cast<unsigned char>(c));
    return "attachment; filename*=UTF-8''" + coded;
}

void add_headers(MHD_Response* response, const Reply& reply) {
    const auto add = [&](const char* name, const std::string& value) {
        if (!value.empty())
            http().add_header(response, name, value.c_str());
    };
    add("Content-Type", reply.type);
    add("Content-Security-Policy", reply.policy);
    add("Location", reply.location);
    add("Content-Disposition", reply.saved_as.empty() ? "" : disposition(reply.saved_as));
    add("Cache-Control", "no-store");
    add("Referrer-Policy", "no-referrer");
    add("X-Content-Type-Options", "nosniff");
    add("Cross-Origin-Resource-Policy", "same-origin");
    add("Cross-Origin-Opener-Policy", "same-origin");
    add("Permissions-Policy", "microphone=(" + reply.microphone + "), camera=(), geolocation=()");
}

MHD_Result send(MHD_Connection* connection, const Reply& reply) {
    MHD_Response* response =
        reply.file.empty() ? text_response(reply.text) : file_response(reply.file);
    if (!response)
        return MHD_NO;
    add_headers(response, reply);
    const MHD_Result queued = http().queue(connection, reply.status, response);
    http().destroy(response);
    return queued;
}

Reply refusal(unsigned status, const std::string& said) {
    return {status, "text/plain; charset=utf-8", said + "\n"};
}

} // namespace

struct Server::State {
    Service service;
    std::vector<MHD_Daemon*> daemons; ///< one a port
    /// At the limit itself libmicrohttpd stops listening for a while; it takes ten in a row.
    static constexpr std::size_t spare = 16;
    Connections connections{limits::desk_connections - spare};
    std::size_t uploads = 0;

    /// The head has come: opens the file that the body goes to.
    void begin(Exchange& exchange) {
        exchange.admitted = service.admits(exchange.request);
        if (!exchange.admitted || exchange.request.method != "PUT")
            return;
        exchange.request.body = service.incoming / fmt::format("{}", ++uploads);
        exchange.file.open(exchange.request.body, std::ios::binary);
    }

    static void take(Exchange& exchange, const char* data, std::size_t size) {
        exchange.bytes += size;
        if (exchange.file.is_open() && !exchange.too_large())
            exchange.file.write(data, static_cast<std::streamsize>(size));
    }

    Reply reply(Exchange& exchange) const {
        exchange.file.close();
        if (!exchange.admitted)
            return refusal(403, "This is not for you.");
        if (exchange.too_large())
            return refusal(413, fmt::format("More than {} bytes are beyond the limits of the desk.",
                                            limits::desk_file_bytes));
        if (exchange.request.method == "PUT" && !exchange.file)
            return refusal(507, "The file could not be kept: the disk may be full.");
        return service.answer(exchange.request);
    }

    static MHD_Result accept(void* self, MHD_Connection* connection, const char* path,
                             const char* method, const char*, const char* data, std::size_t* size,
                             void** state) {
        auto* server = static_cast<State*>(self);
        auto* exchange = static_cast<Exchange*>(*state);
        if (!exchange) {
            server->connections.asked(socket_of(connection));
            exchange = new Exchange{head_of(connection, method, path), false, 0, {}};
            *state = exchange;
            server->begin(*exchange);
            return exchange->admitted ? MHD_YES : send(connection, server->reply(*exchange));
        }
        if (*size > 0) {
            take(*exchange, data, *size);
            *size = 0;
            return MHD_YES;
        }
        return send(connection, server->reply(*exchange));
    }

    static void completed(void* self, MHD_Connection* connection, void** state,
                          MHD_RequestTerminationCode) {
        static_cast<State*>(self)->connections.answered(socket_of(connection));
        delete static_cast<Exchange*>(*state);
        *state = nullptr;
    }

    static void connected(void* self, MHD_Connection* connection, void**,
                          MHD_ConnectionNotificationCode what) {
        Connections& connections = static_cast<State*>(self)->connections;
        if (what == MHD_CONNECTION_NOTIFY_STARTED)
            connections.opened(socket_of(connection));
        else
            connections.closed(socket_of(connection));
    }
};

Server::Server(Service service) : state_(std::make_unique<State>()) {
    http();
    state_->service = std::move(service);
}

Server::~Server() {
    for (MHD_Daemon* daemon : state_->daemons)
        http().stop(daemon);
}

int Server::listen(int port) {
    sockaddr_in address{};
    address.sin_family = AF_INET;
    address.sin_port = htons(static_cast<std::uint16_t>(port));
    address.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
    MHD_Daemon* daemon = http().start(
        MHD_USE_EPOLL, static_cast<std::uint16_t>(port), nullptr, nullptr, State::accept,
        state_.get(), MHD_OPTION_SOCK_ADDR, &address, MHD_OPTION_NOTIFY_COMPLETED, State::completed,
        state_.get(), MHD_OPTION_NOTIFY_CONNECTION, State::connected, state_.get(),
        MHD_OPTION_CONNECTION_LIMIT, limits::desk_connections, MHD_OPTION_CONNECTION_TIMEOUT,
        limits::desk_idle_seconds, MHD_OPTION_CONNECTION_MEMORY_LIMIT, limits::desk_request_bytes,
        MHD_OPTION_END);
    if (!daemon)
        throw error(message::port_taken, "", {}, port);
    state_->daemons.push_back(daemon);
    return http().daemon_info(daemon, MHD_DAEMON_INFO_BIND_PORT)->port;
}

void Server::run(std::chrono::milliseconds time) {
    std::vector<pollfd> watched;
    auto wait = static_cast<MHD_UNSIGNED_LONG_LONG>(time.count());
    for (MHD_Daemon* daemon : state_->daemons) {
        watched.push_back(
            {http().daemon_info(daemon, MHD_DAEMON_INFO_EPOLL_FD)->epoll_fd, POLLIN, 0});
        MHD_UNSIGNED_LONG_LONG soon = 0;
        if (http().timeout(daemon, &soon) == MHD_YES)
            wait = std::min(wait, soon);
    }
    poll(watched.data(), watched.size(), static_cast<int>(wait));
    for (MHD_Daemon* daemon : state_->daemons)
        http().run_wait(daemon, 0);
}

} // namespace sectio::desk
