"""The engine as a caller of the library finds it: what its packages say of their use runs."""

import doctest
import importlib

import pytest
from fitted import fitted


@pytest.mark.parametrize("package", ["tracker.fitting", "tracker.alterations"])
def test_what_a_package_says_of_its_use_is_so(package: str) -> None:
    module = importlib.import_module(package)
    told = doctest.DocTestFinder(recurse=False).find(
        module, package, globs={"pattern": fitted("bodice")}
    )
    (asked,) = told
    assert len(asked.examples) > 4
    runner = doctest.DocTestRunner(verbose=False)
    assert runner.run(asked).failed == 0
