package chainage.analysis;

import chainage.evidence.ProductWord;
import chainage.evidence.RiderEvidence;
import chainage.exposure.Factors;
import chainage.ledger.Event;
import chainage.ledger.Ledger;
import chainage.ledger.Method;
import chainage.treatment.OtherRiders;
import chainage.treatment.RiderLives;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.jspecify.annotations.Nullable;

/**
 * What other riders' chains have shown, each rider counted once.
 *
 * @param riders all that were brought in, those that are counted first, in the order of what they have shown
 * @param weighed what those that are counted have shown together
 * @param unread words under which something came that is no evidence, and is left out
 */
public record Others(List<Rider> riders, OtherRiders weighed, List<String> unread) {
    static final Others NONE = new Others(List.of(), OtherRiders.NONE, List.of());

    public Others {
        riders = List.copyOf(riders);
        unread = List.copyOf(unread);
    }

    /**
     * One rider.
     *
     * @param as words under which the rider was brought in
     * @param again null where counted; else why not
     */
    public record Rider(
            RiderEvidence evidence,
            List<String> as,
            @Nullable Again again) {
        public Rider {
            as = List.copyOf(as);
        }
    }

    /** Why a rider is not counted. */
    public enum Again {
        /** Another shows the same and more. */
        OTHER,
        /** This ledger does. */
        OWN
    }

    /**
     * What was brought into a ledger.
     *
     * @param own what the ledger itself shows
     */
    static Others of(Ledger ledger, RiderEvidence own, Factors factors) {
        List<String> unread = new ArrayList<>();
        List<Rider> all = all(ledger, unread);
        List<Rider> counted = new ArrayList<>();
        List<Rider> again = new ArrayList<>();
        for (Rider r : all) {
            if (r.evidence().isSameRider(own)) {
                again.add(new Rider(r.evidence(), r.as(), Again.OWN));
            } else if (counted.stream().anyMatch(c -> c.evidence().isSameRider(r.evidence()))) {
                again.add(new Rider(r.evidence(), r.as(), Again.OTHER));
            } else {
                counted.add(r);
            }
        }
        Names names = new Names(ledger);
        List<RiderLives> lives = counted.stream()
                .map(r -> RiderLives.of(
                        r.evidence().treatments().stream()
                                .map(t -> t.life(names.of(t.method(), t.product()), factors))
                                .toList(),
                        factors))
                .toList();
        OtherRiders weighed = OtherRiders.of(lives, names.products(), factors);
        List<Rider> riders = new ArrayList<>(counted);
        riders.addAll(again);
        return new Others(riders, weighed, unread);
    }

    /** Riders of all files, the same text once; the longest first, so that of two that are one the one that shows more counts. */
    private static List<Rider> all(Ledger ledger, List<String> unread) {
        Map<String, List<String>> as = new HashMap<>();
        ledger.evidence()
                .forEach((word, texts) -> texts.forEach(
                        t -> as.computeIfAbsent(t, x -> new ArrayList<>()).add(word)));
        List<Rider> riders = new ArrayList<>();
        as.forEach((text, words) -> {
            try {
                riders.add(new Rider(RiderEvidence.parse(text), words, null));
            } catch (IllegalArgumentException e) {
                // A fact that no file of evidence can have made, as of an export that was written by hand.
                unread.addAll(words);
            }
        });
        return riders.stream()
                .sorted(Comparator.comparing(
                                (Rider r) -> -r.evidence().treatments().size())
                        .thenComparing(r -> r.evidence().text()))
                .toList();
    }

    /** This rider's names for what others call a product. */
    private static final class Names {
        private final Map<String, String> own = new HashMap<>();
        private final List<Event.ProductDescribed> products;

        Names(Ledger ledger) {
            products = List.copyOf(ledger.products().values());
            Map<String, Method> methods = new HashMap<>();
            for (Event.ProductDescribed p : products) {
                methods.put(p.product(), p.method());
                own.put(key(p.method(), p.product()), p.product());
            }
            for (Event.ProductsSame s : ledger.sameProducts()) {
                if (methods.containsKey(s.product())) {
                    own.put(key(Objects.requireNonNull(methods.get(s.product())), s.word()), s.product());
                }
            }
        }

        private static String key(Method method, String word) {
            return method.word() + " " + ProductWord.of(word);
        }

        List<Event.ProductDescribed> products() {
            return products;
        }

        /** The name under which a life is weighed; another's word gets a mark that no name of this rider's has. */
        String of(Method method, @Nullable String word) {
            if (word == null) {
                return "";
            }
            String known = own.get(key(method, word));
            return known == null ? "\0" + ProductWord.of(word) : known;
        }
    }
}
