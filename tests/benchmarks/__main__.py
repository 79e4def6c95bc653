"""`python -m tests.benchmarks`: where the time goes, phase by phase, and as a ratio to the kernel.

With `cutting` as its first word it runs the published cutting instances instead, with `screening`
the statics of the models without solids, with `time` whether plans and their sheets keep to the
seconds given, with `watching` what passes from a save to the view.
"""

from __future__ import annotations

import sys

if __name__ == "__main__":
    arguments = sys.argv[1:]
    if arguments[:1] == ["cutting"]:
        from tests.benchmarks.cutting import main as cutting

        sys.exit(cutting(arguments[1:]))
    if arguments[:1] == ["time"]:
        from tests.benchmarks.keeping_time import main as keeping_time

        sys.exit(keeping_time(arguments[1:]))
    if arguments[:1] == ["screening"]:
        from tests.benchmarks.screening import main as screening

        sys.exit(screening(arguments[1:]))
    if arguments[:1] == ["watching"]:
        from tests.benchmarks.watching import main as watching

        sys.exit(watching(arguments[1:]))
    from tests.benchmarks.phases import main

    sys.exit(main(arguments))
