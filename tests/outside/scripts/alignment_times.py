"""How long pm4py takes for the two questions of game/alignment/benches/speed/questions.rs.

Run in an environment of its own: pip install pm4py==2.7.23.11; python3 alignment_times.py [LIMIT]
Prints "answer", then milliseconds of one alignment and its cost, or "none" if there was no answer in
LIMIT seconds (30 if not given). Loading does not count. What pm4py itself prints stands between.
pm4py is under the AGPL: it runs here as a program of its own.
"""
import multiprocessing
import queue
import sys
import time
import warnings

warnings.filterwarnings("ignore")


def rounds():
    body = ", ".join(f"'s{step}'" for step in range(12))
    trace = [f"s{at * 7 % 12 if at % 5 == 4 else at % 12}" for at in range(60)]
    return f"*( ->( {body} ), tau )", trace


def slots():
    each = ", ".join(f"->( 'look{slot}', 'answer{slot}' )" for slot in range(20))
    trace = ["a"]
    for slot in (at * 7 % 20 for at in range(20)):
        look, answer = f"look{slot}", f"answer{slot}"
        if slot % 7 == 6:
            trace += [answer]
        elif slot % 3 == 2:
            trace += [answer, look]
        else:
            trace += [look, answer]
    return f"->( 'a', 'b', +( {each} ), 'c', 'd', 'e' )", trace + ["c", "b", "d", "e"]


def ask(text, words, answer):
    from pm4py.algo.conformance.alignments.petri_net import algorithm as aligner
    from pm4py.objects.conversion.process_tree import converter
    from pm4py.objects.log.obj import Event, Trace
    from pm4py.objects.process_tree.utils.generic import parse

    net, start, end = converter.apply(parse(text))
    trace = Trace([Event({"concept:name": word}) for word in words])
    answer.put("ready")
    begin = time.perf_counter()
    found = aligner.apply_trace(trace, net, start, end)
    answer.put((time.perf_counter() - begin, found["cost"] // 10000))


def main():
    limit = float(sys.argv[1]) if len(sys.argv) > 1 else 30.0
    for text, words in [rounds(), slots()]:
        answer = multiprocessing.Queue()
        asked = multiprocessing.Process(target=ask, args=(text, words, answer))
        asked.start()
        assert answer.get(timeout=300) == "ready"
        try:
            seconds, cost = answer.get(timeout=limit)
            print(f"answer {seconds * 1000} {cost}")
        except queue.Empty:
            print("answer none")
        asked.kill()
        asked.join()


if __name__ == "__main__":
    main()
