#pragma once
#include <string>
#include <vector>

namespace exworks::cli::web {

/// This computer's IPv4 addresses on its networks, without the loopback; those of private networks first.
std::vector<std::string> network_addresses();

}  // namespace exworks::cli::web
