package chainage.typed;

import chainage.ledger.Cleaning;
import chainage.ledger.Event;
import chainage.ledger.Heard;
import chainage.ledger.Ledger;
import chainage.ledger.Method;
import chainage.ledger.Remark;
import chainage.quantity.PlainText;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;

/** Finds what the rider means by a name: without regard to case, or by a beginning that fits one name only. */
public final class Names {
    private Names() {}

    public static String bike(Ledger ledger, String typed) {
        return find(ledger, "bike", typed, ledger.bikes().keySet());
    }

    /** A bike that rides can be given to: not one that only shares another's. */
    public static String riddenBike(Ledger ledger, String typed) {
        String bike = bike(ledger, typed);
        String lead = ledger.ridden(bike);
        if (!lead.equals(bike)) {
            throw CliError.usage(
                    bike + " follows " + lead + " and has no rides of its own",
                    "give them to " + PlainText.typed(lead) + "; they count for both chains");
        }
        return bike;
    }

    public static String chain(Ledger ledger, String typed) {
        return find(ledger, "chain", typed, ledger.chains().keySet());
    }

    /** A chain, with what stands behind it, in case the two were turned round. */
    public static String chain(Ledger ledger, String typed, String behind) {
        if (named(typed, ledger.chains().keySet()).isEmpty()
                && !named(behind, ledger.chains().keySet()).isEmpty()) {
            throw CliError.usage(
                    "\"" + typed + "\" is no chain, but " + behind + " is",
                    "name the chain first: " + PlainText.typed(behind) + " " + PlainText.typed(typed));
        }
        return chain(ledger, typed);
    }

    /** A product of the rider's, else the plain product of a method. */
    public static Event.ProductDescribed product(Ledger ledger, String typed) {
        Collection<String> names = ledger.products().keySet();
        String word = Method.of(typed).isPresent() || !named(typed, names).isEmpty() ? typed : hyphened(typed);
        if (Method.of(word).isPresent()) {
            return ledger.product(word).orElseThrow();
        }
        if (!named(typed, names).isEmpty()
                || kindOf(ledger, typed).isPresent()
                || !Alike.to(typed, names).isEmpty()) {
            return Objects.requireNonNull(ledger.products().get(find(ledger, "product", typed, names)));
        }
        throw CliError.usage(
                "there is no product \"" + typed + "\"",
                Guesses.hint(
                        Guesses.Of.METHOD,
                        typed,
                        methodWords(),
                        names.isEmpty()
                                ? "add it: chainage product add " + PlainText.typed(typed)
                                        + " --method hot-wax, or name a method: " + methods()
                                : "you have " + String.join(", ", names)));
    }

    /** Words that are written apart, as one with hyphens. */
    private static String hyphened(String typed) {
        return typed.strip().toLowerCase(Locale.ROOT).replaceAll("\\s+", "-");
    }

    /** A product of the rider's own; what is only a method has nothing to describe. */
    public static Event.ProductDescribed ownProduct(Ledger ledger, String typed, String hint) {
        Event.ProductDescribed product = product(ledger, typed);
        if (!ledger.products().containsKey(product.product())) {
            throw CliError.usage("\"" + product.product() + "\" is a method, not a product of yours", hint);
        }
        return product;
    }

    /** What a product may not be called: the names of others, and of methods. */
    public static Collection<String> takenByProducts(Ledger ledger) {
        List<String> taken = new ArrayList<>(ledger.products().keySet());
        taken.addAll(Method.allWords());
        return taken;
    }

    public static Method method(String typed) {
        return Method.of(hyphened(typed))
                .orElseThrow(() -> CliError.usage(
                        "\"" + typed + "\" is no method",
                        Guesses.hint(Guesses.Of.METHOD, typed, methodWords(), "use one of " + methods())));
    }

    /** The bike to follow; not one that follows another itself. */
    public static String lead(Ledger ledger, String bike, String typed) {
        String lead = bike(ledger, typed);
        boolean led = ledger.bikes().values().stream().anyMatch(b -> bike.equals(b.follows()));
        if (lead.equals(bike) || led || !ledger.ridden(lead).equals(lead)) {
            throw CliError.usage(
                    bike + " cannot follow " + lead + ": a bike that is followed follows none, and not itself",
                    "name the bike that is ridden");
        }
        return lead;
    }

    /** A chain; of a bike it is said how its chains are asked for. */
    public static String chainNotBike(Ledger ledger, String typed) {
        if (taken(typed, ledger.chains().keySet()).isEmpty()) {
            taken(typed, ledger.bikes().keySet()).ifPresent(bike -> {
                throw CliError.usage(
                        "\"" + typed + "\" is a bike, not a chain", "for its chains: --bike " + PlainText.typed(bike));
            });
        }
        return chain(ledger, typed);
    }

    /** How a chain is cleaned. */
    public static Cleaning cleaning(String typed) {
        return Cleaning.of(typed)
                .orElseThrow(() -> CliError.usage(
                        "\"" + typed + "\" is no cleaning", "use --cleaning none, on-bike, quick or deep"));
    }

    /** What a chain was like. */
    public static Heard heard(String typed) {
        return Heard.of(typed)
                .orElseThrow(
                        () -> CliError.usage("\"" + typed + "\" is nothing to be heard", "use --heard noisy or quiet"));
    }

    /** What is remarked of a chain. */
    public static Remark remark(String typed) {
        return Arrays.stream(Remark.values())
                .filter(x -> x.word().equals(typed))
                .findFirst()
                .orElseThrow(() -> CliError.usage(
                        "\"" + typed + "\" is no remark",
                        Guesses.hint(
                                Guesses.Of.REMARK,
                                typed,
                                Arrays.stream(Remark.values()).map(Remark::word).toList(),
                                "use noisy, damaged, retired or note")));
    }

    /** Products that treat a chain, two or more; none where none is named. */
    public static Collection<Event.ProductDescribed> treatments(Ledger ledger, List<String> products) {
        Map<String, Event.ProductDescribed> wanted = new LinkedHashMap<>();
        for (String typed : products) {
            Event.ProductDescribed p = product(ledger, typed);
            if (p.method() == Method.NONE) {
                throw CliError.usage(
                        "\"" + p.product() + "\" is no treatment", "name products, or leave them out for all");
            }
            wanted.put(p.product(), p);
        }
        if (!products.isEmpty() && wanted.size() < 2) {
            throw CliError.usage(
                    "there is one product to compare, " + String.join("", wanted.keySet()),
                    "name two or more, or none for all");
        }
        return wanted.values();
    }

    private static List<String> methodWords() {
        return Arrays.stream(Method.values()).map(Method::word).toList();
    }

    public static String methods() {
        return String.join(", ", methodWords());
    }

    /** True when a name of that kind is taken, whatever its case. */
    public static Optional<String> taken(String name, Collection<String> names) {
        return names.stream().filter(n -> n.equalsIgnoreCase(name)).findFirst();
    }

    /** A name fit to be kept. */
    public static String fresh(String kind, String name, Collection<String> names) {
        String n = name.strip();
        if (n.isEmpty() || n.length() > 60 || !n.equals(PlainText.marked(n)) || n.startsWith("-")) {
            throw CliError.usage(
                    "\"" + name + "\" cannot name a " + kind,
                    "use 1 to 60 printable characters that do not start with -");
        }
        taken(n, names).ifPresent(old -> {
            throw CliError.usage(
                    "there is a " + kind + " \"" + old + "\" already",
                    "choose another name, or change it: chainage " + kind + " set " + PlainText.typed(old));
        });
        return n;
    }

    private static String find(Ledger ledger, String kind, String typed, Collection<String> names) {
        List<String> fits = named(typed, names);
        if (fits.size() == 1) {
            return fits.get(0);
        }
        String here = names.isEmpty()
                ? "add it: chainage " + kind + " add " + PlainText.typed(typed)
                : "you have " + String.join(", ", names);
        if (!fits.isEmpty()) {
            throw CliError.usage(
                    "\"" + typed + "\" fits several of your " + kind + "s",
                    "type more of it: " + String.join(", ", fits));
        }
        Optional<String> other = kindOf(ledger, typed);
        throw CliError.usage(
                other.map(o -> "\"" + typed + "\" is a " + o + ", not a " + kind)
                        .orElse("there is no " + kind + " \"" + typed + "\""),
                other.isPresent() ? here : Alike.hint(typed, names, here));
    }

    /** The names that a word names: one that it is, whatever its case, else all that begin with it. */
    private static List<String> named(String typed, Collection<String> names) {
        Optional<String> exact = taken(typed, names);
        return exact.isPresent()
                ? List.of(exact.get())
                : names.stream()
                        .filter(n -> !typed.isEmpty() && n.regionMatches(true, 0, typed, 0, typed.length()))
                        .toList();
    }

    /** What else has that very name. */
    private static Optional<String> kindOf(Ledger ledger, String typed) {
        return taken(typed, ledger.bikes().keySet()).isPresent()
                ? Optional.of("bike")
                : taken(typed, ledger.chains().keySet()).isPresent()
                        ? Optional.of("chain")
                        : taken(typed, ledger.products().keySet()).isPresent()
                                ? Optional.of("product")
                                : Method.of(typed).map(m -> "method");
    }
}
