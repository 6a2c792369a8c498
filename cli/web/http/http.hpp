#pragma once
#include <httplib.h>

/// The HTTP library brings <resolv.h>, which makes macros of two plain words.
#undef p_type
#undef p_class
