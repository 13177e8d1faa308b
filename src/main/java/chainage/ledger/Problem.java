package chainage.ledger;

import java.time.Instant;
import java.util.HashSet;
import java.util.List;
import java.util.Set;

/** A contradiction among the facts; its words are made where it is told. */
public sealed interface Problem {
    /** Numbers of the entries to blame, at least one, the one stated first in front where they were stated in turn. */
    List<Long> entries();

    /** A fact speaks of a thing that no fact in force describes. */
    record Unknown(long entry, Event.Named what, String name) implements Problem {
        @Override
        public List<Long> entries() {
            return List.of(entry);
        }
    }

    /** A correction is of an entry that was not stated before it. */
    record NotBefore(long entry, long target) implements Problem {
        @Override
        public List<Long> entries() {
            return List.of(entry);
        }
    }

    /** Two names could not be told apart when they are typed. */
    record Alike(Event.Named what, String first, long firstEntry, String second, long secondEntry) implements Problem {
        @Override
        public List<Long> entries() {
            return List.of(firstEntry, secondEntry);
        }
    }

    /** A treatment was heard at its end, and was quiet until the next one all the same. */
    record NoisyAndQuiet(String chain, Instant noisy, long noisyEntry, Instant treated, long treatedEntry)
            implements Problem {
        @Override
        public List<Long> entries() {
            return List.of(noisyEntry, treatedEntry);
        }
    }

    /** A chain is put on a bike while it is on one. */
    record OnTwoBikes(Event.Installed first, long firstEntry, Event.Installed second, long secondEntry)
            implements Problem {
        @Override
        public List<Long> entries() {
            return List.of(firstEntry, secondEntry);
        }
    }

    /** A chain is taken off while it is on no bike. */
    record OnNoBike(String chain, Instant at, long entry) implements Problem {
        @Override
        public List<Long> entries() {
            return List.of(entry);
        }
    }

    /** A bike has two chains at once. */
    record TwoChains(Installation first, Installation second) implements Problem {
        @Override
        public List<Long> entries() {
            return List.of(first.entry(), second.entry());
        }
    }

    /** Those that were not there before: none of then was between the same entries. */
    static List<Problem> fresh(List<Problem> before, List<Problem> now) {
        Set<List<Long>> known = new HashSet<>();
        before.forEach(p -> known.add(p.entries()));
        return now.stream().filter(p -> !known.contains(p.entries())).toList();
    }
}
