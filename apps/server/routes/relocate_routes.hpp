#pragma once
#include "apps/server/store/service.hpp"

namespace lodeway::server {

/// POST /api/grounds/{id}/relocate and /api/trips/{id}/relocate: where are we.
void add_relocate_routes(Router& router, Service& service);

}  // namespace lodeway::server
