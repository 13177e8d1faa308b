package chainage.analysis;

import chainage.evidence.Marks;
import chainage.evidence.PairEvidence;
import chainage.evidence.ProductWord;
import chainage.evidence.RiderEvidence;
import chainage.exposure.Factors;
import chainage.friction.Friction;
import chainage.ledger.Event;
import chainage.ledger.Ledger;
import chainage.ledger.Method;
import chainage.meter.MeasuredLoss;
import chainage.meter.OtherLoss;
import chainage.meter.RiderLoss;
import chainage.quantity.ContentDigest;
import chainage.quantity.Lazy;
import chainage.treatment.Life;
import chainage.treatment.OtherRiders;
import chainage.treatment.RiderLives;
import chainage.wear.ChainWear;
import chainage.wear.OtherWear;
import chainage.wear.RiderWear;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/** What other riders' chains have shown, each rider counted once. For one thread. */
public final class Others {
    static final Others NONE = new Others(
            new Lazy<>(() -> new Brought(List.of(), List.of(), List.of())),
            List.of(),
            OtherRiders.NONE,
            OtherWear.NONE,
            OtherLoss.NONE);

    private final Lazy<Brought> brought;
    private final List<Integer> own;
    private final OtherRiders weighed;
    private final OtherWear wear;
    private final OtherLoss loss;

    private Others(Lazy<Brought> brought, List<Integer> own, OtherRiders weighed, OtherWear wear, OtherLoss loss) {
        this.brought = brought;
        this.own = own;
        this.weighed = weighed;
        this.wear = wear;
        this.loss = loss;
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

        private Rider again(Again why) {
            return new Rider(evidence, as, why);
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
     * @param mine what the ledger itself shows
     * @param kept what was worked out before, where it is kept
     */
    static Others of(Ledger ledger, RiderEvidence mine, Factors factors, Gleaned.Kept kept) {
        Names names = new Names(ledger);
        Lazy<Brought> brought = new Lazy<>(() -> Brought.of(ledger));
        ContentDigest content = content(ledger, factors);
        Gleaned before = kept.of(content).orElse(null);
        List<Gleaned.Rider> riders = before != null ? before.riders() : gleaned(brought.get(), names, factors);
        Marks marks = mine.marks();
        List<Integer> own = IntStream.range(0, riders.size())
                .filter(r -> riders.get(r).marks().isSameRider(marks))
                .boxed()
                .toList();
        if (before != null && before.own().equals(own)) {
            return new Others(brought, own, before.weighed(), before.wear(), before.loss());
        }
        List<Gleaned.Rider> counted = Gleaned.but(riders, own);
        OtherRiders weighed =
                OtherRiders.of(counted.stream().map(Gleaned.Rider::lives).toList(), names.products(), factors);
        OtherWear wear = OtherWear.of(counted.stream().map(Gleaned.Rider::wear).toList(), names.products(), factors);
        OtherLoss loss = OtherLoss.of(counted.stream().map(Gleaned.Rider::loss).toList(), names.products(), factors);
        kept.keep(content, new Gleaned(riders, own, weighed, wear, loss));
        return new Others(brought, own, weighed, wear, loss);
    }

    /** All that the riders' figures follow from. */
    private static ContentDigest content(Ledger ledger, Factors factors) {
        List<String> parts = new ArrayList<>(new TreeSet<>(
                ledger.evidence().values().stream().flatMap(List::stream).toList()));
        ledger.products().values().forEach(p -> parts.add(p.method().word() + " " + p.product()));
        ledger.sameProducts().forEach(s -> parts.add(s.product() + " = " + s.word()));
        factors.all().forEach(f -> parts.add(f.toString()));
        return ContentDigest.of(String.join("\0", parts).getBytes(StandardCharsets.UTF_8));
    }

    /** Each rider by itself, on all processors: it is nearly all of the work, and no rider's hangs on another's. */
    private static List<Gleaned.Rider> gleaned(Brought brought, Names names, Factors factors) {
        return brought.once().parallelStream()
                .map(r -> gleaned(r, names, factors))
                .toList();
    }

    private static Gleaned.Rider gleaned(Read read, Names names, Factors factors) {
        RiderEvidence evidence = read.rider().evidence();
        List<Life> lives = evidence.treatments().stream()
                .map(t -> t.life(names.of(t.method(), t.product()), factors))
                .toList();
        Map<String, Event.ProductDescribed> products = new HashMap<>();
        List<ChainWear> chains = evidence.chains().stream()
                .map(c -> c.wear(
                        (method, word) -> {
                            String name = names.of(method, word);
                            String label = method.word() + " " + name;
                            products.put(label, new Event.ProductDescribed(name, method, null, null));
                            return label;
                        },
                        factors))
                .toList();
        return new Gleaned.Rider(
                read.marks(),
                RiderLives.of(lives, factors),
                RiderWear.of(chains, products, factors),
                loss(evidence, names, factors));
    }

    private static RiderLoss loss(RiderEvidence evidence, Names names, Factors factors) {
        Friction friction = new Friction(factors);
        Map<String, RiderLoss.Product> products = new HashMap<>();
        List<MeasuredLoss.Seen> seen = new ArrayList<>();
        for (PairEvidence p : evidence.pairs()) {
            // The two meters need a name that those of the rider's other pairs have not, and no more.
            seen.addAll(p.seen(
                    String.valueOf(seen.size()),
                    (method, word) -> {
                        String name = names.of(method, word);
                        String label = method.word() + " " + name;
                        products.put(label, new RiderLoss.Product(method, name, 0));
                        return label;
                    },
                    friction));
        }
        return RiderLoss.of(seen, products, MeasuredLoss.Meters.of(factors));
    }

    /** All that were brought in, those that are counted first, in the order of what they have shown. */
    public List<Rider> riders() {
        List<Rider> once = brought.get().once().stream().map(Read::rider).toList();
        List<Rider> riders = new ArrayList<>();
        List<Rider> again = new ArrayList<>(brought.get().again());
        for (int r = 0; r < once.size(); r++) {
            if (own.contains(r)) {
                again.add(once.get(r).again(Again.OWN));
            } else {
                riders.add(once.get(r));
            }
        }
        riders.addAll(again);
        return riders;
    }

    /** What those that are counted have shown together. */
    public OtherRiders weighed() {
        return weighed;
    }

    /** What the readings of those that are counted have shown together. */
    public OtherWear wear() {
        return wear;
    }

    /** What the power meters of those that are counted have shown together. */
    public OtherLoss loss() {
        return loss;
    }

    /** Words under which something came that is no evidence, and is left out. */
    public List<String> unread() {
        return brought.get().unread();
    }

    /** A rider who was brought in, with what tells it from others. */
    private record Read(Rider rider, Marks marks) {}

    /**
     * The evidence itself.
     *
     * @param once each rider once
     * @param again riders of whom another shows the same
     * @param unread words under which something came that is none
     */
    private record Brought(List<Read> once, List<Rider> again, List<String> unread) {
        /** The longest first, so that of two that are one rider the one that shows more counts. */
        static Brought of(Ledger ledger) {
            Map<String, List<String>> as = new TreeMap<>();
            ledger.evidence()
                    .forEach((word, texts) -> texts.forEach(
                            t -> as.computeIfAbsent(t, x -> new ArrayList<>()).add(word)));
            List<String> unread = Collections.synchronizedList(new ArrayList<>());
            List<Read> read = as.entrySet().parallelStream()
                    .flatMap(e -> {
                        try {
                            RiderEvidence evidence = RiderEvidence.parse(e.getKey());
                            return Stream.of(new Read(new Rider(evidence, e.getValue(), null), evidence.marks()));
                        } catch (IllegalArgumentException none) {
                            // A fact that no file of evidence can have made, as of an export that was written by hand.
                            unread.addAll(e.getValue());
                            return Stream.empty();
                        }
                    })
                    .sorted(Comparator.comparing((Read r) -> -r.marks().each().size()))
                    .toList();
            List<Read> once = new ArrayList<>();
            List<Rider> again = new ArrayList<>();
            for (Read r : read) {
                if (once.stream().anyMatch(c -> c.marks().isSameRider(r.marks()))) {
                    again.add(r.rider().again(Again.OTHER));
                } else {
                    once.add(r);
                }
            }
            return new Brought(once, again, unread.stream().sorted().toList());
        }
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
