"""The making, replayed and judged by what shares nothing with the compiler that derived it."""
