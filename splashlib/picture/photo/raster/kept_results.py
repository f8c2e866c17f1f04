"""Results that are kept for the next time, as many as a limit of memory allows."""

from collections import OrderedDict
from functools import wraps
from threading import Lock


def kept(*, megabytes):
    """Keep the latest results of a function that returns an array, up to so many megabytes of them in all.

    A picture of the set at rest is 3 MB and one of the largest size 400: a number of results would bound nothing.
    What is larger than the limit is not kept at all.
    """

    def around(function):
        # A panel may draw in a thread of its own.
        results, most, lock = OrderedDict(), megabytes * 1e6, Lock()

        @wraps(function)
        def wrapped(*arguments):
            with lock:
                if arguments in results:
                    results.move_to_end(arguments)
                    return results[arguments]
            made = function(*arguments)
            with lock:
                results[arguments] = made
                while sum(each.nbytes for each in results.values()) > most:
                    results.popitem(last=False)
            return made

        wrapped.cache_clear = results.clear
        return wrapped

    return around
