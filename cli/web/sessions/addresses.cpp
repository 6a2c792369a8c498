#include "web/sessions/addresses.hpp"

#include <arpa/inet.h>
#include <ifaddrs.h>
#include <net/if.h>

#include <algorithm>
#include <memory>

namespace exworks::cli::web {

namespace {

/// RFC 1918.
bool is_private(std::uint32_t a) { return a >> 24u == 10 || a >> 20u == 0xAC1 || a >> 16u == 0xC0A8; }

}  // namespace

std::vector<std::string> network_addresses() {
  ifaddrs* all = nullptr;
  if (getifaddrs(&all) != 0) return {};
  const std::unique_ptr<ifaddrs, void (*)(ifaddrs*)> owner(all, freeifaddrs);
  std::vector<std::pair<bool, std::string>> found;
  for (const ifaddrs* i = all; i != nullptr; i = i->ifa_next) {
    if (i->ifa_addr == nullptr || i->ifa_addr->sa_family != AF_INET || (i->ifa_flags & IFF_LOOPBACK) != 0 || (i->ifa_flags & IFF_UP) == 0) continue;
    const auto& address = reinterpret_cast<const sockaddr_in*>(i->ifa_addr)->sin_addr;
    char text[INET_ADDRSTRLEN] = "";
    inet_ntop(AF_INET, &address, text, sizeof text);
    found.emplace_back(!is_private(ntohl(address.s_addr)), text);
  }
  std::stable_sort(found.begin(), found.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
  std::vector<std::string> out;
  for (auto& [ignored, text] : found) out.push_back(std::move(text));
  return out;
}

}  // namespace exworks::cli::web
