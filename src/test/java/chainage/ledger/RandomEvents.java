package chainage.ledger;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.function.Supplier;
import java.util.stream.IntStream;
import java.util.stream.Stream;

/** Facts of every kind from a seed, by walking the fields that are declared; and facts with a value out of bounds. */
public final class RandomEvents {
    private static final List<String> ODD = List.of(
            "Winter bike",
            "",
            "ø ü 鏈",
            "quote \" and \\ back",
            "line\nbreak",
            "\u0000\u001b[31m",
            "a'b;--",
            "𝄞 beyond");

    private static final List<String> PLAIN = List.of("Winter bike", "ø ü 鏈", "quote \" and \\ back", "a'b;--", "Moss");

    private final Random random;

    public RandomEvents(Random random) {
        this.random = random;
    }

    /** A fact of this type, within bounds; what may be left out is so half of the time. */
    public Event of(Class<?> type) {
        List<Kind<?>> kinds = Kinds.all().stream().filter(k -> k.type() == type).toList();
        return of(pick(kinds));
    }

    <E extends Event> E of(Kind<E> kind) {
        return made(kind.shape());
    }

    private <T> T made(Shape<T> shape) {
        for (int i = 0; i < 1000; i++) {
            Map<String, Object> values = new HashMap<>();
            for (Field<T, ?> f : shape.fields()) {
                if (f.needed() || random.nextBoolean()) {
                    values.put(
                            f.name(),
                            f.name().equals("currency") ? pick(List.of("EUR", "JPY", "KWD")) : any(f.value()));
                }
            }
            try {
                T made = shape.maker().apply(new Shape.Stated(values));
                shape.check(made);
                return made;
            } catch (IllegalArgumentException e) {
                // Its fields do not go together; the next may.
            }
        }
        throw new AssertionError("nothing is within the bounds of " + shape);
    }

    private Object any(Value<?> value) {
        if (value instanceof Value.Text t) {
            return t.plain() ? plain(t.least(), t.most()) : t.least() > 0 ? pick(PLAIN) : pick(ODD);
        } else if (value instanceof Value.Name) {
            return pick(PLAIN);
        } else if (value instanceof Value.Ride) {
            return Integer.toHexString(0x1000000 + random.nextInt(0x1000000));
        } else if (value instanceof Value.Real r) {
            double share = random.nextInt(5) == 0 ? random.nextInt(2) : random.nextDouble();
            return r.least() + (r.most() - r.least()) * share;
        } else if (value instanceof Value.Whole w) {
            return random.nextInt(5) == 0 ? w.most() : Math.min(w.most(), w.least() + random.nextInt(100_000));
        } else if (value instanceof Value.Count c) {
            return c.least() + random.nextInt(c.most() - c.least() + 1);
        } else if (value instanceof Value.Truth) {
            return random.nextBoolean();
        } else if (value instanceof Value.Time t) {
            long from = newYear(t.firstYear()).toEpochMilli();
            return Instant.ofEpochMilli(
                    from + random.nextLong(newYear(Value.Time.LAST_YEAR + 1).toEpochMilli() - from));
        } else if (value instanceof Value.Word<?> w) {
            return pick(w.all());
        } else if (value instanceof Value.Items<?> i) {
            int many = i.least() + random.nextInt(Math.min(i.most() - i.least(), 4) + 1);
            return IntStream.range(0, many).mapToObj(n -> any(i.each())).toList();
        } else if (value instanceof Value.Choice<?> c) {
            return made(pick(c.forms()).shape());
        } else if (value instanceof Shape<?> s) {
            return made(s);
        }
        throw new AssertionError("no random " + value);
    }

    /** The same fact with one field just out of bounds, in every way that its fields allow. */
    <E extends Event> Stream<Supplier<E>> outside(Kind<E> kind, E fact) {
        return outside(kind.shape(), fact);
    }

    private <T> Stream<Supplier<T>> outside(Shape<T> shape, T whole) {
        return shape.fields().stream().flatMap(f -> outside(shape, whole, f));
    }

    private <T, V> Stream<Supplier<T>> outside(Shape<T> shape, T whole, Field<T, V> field) {
        return outside(field.value()).flatMap(v -> {
            Supplier<T> made = () -> shape.with(whole, Map.of(field.name(), v.get()));
            try {
                // Where another field stands for it, such as one value for a list of them, it is not in the fact at
                // all.
                return v.get().equals(field.part().apply(made.get())) ? Stream.of(made) : Stream.of();
            } catch (IllegalArgumentException e) {
                return Stream.of(made);
            }
        });
    }

    private Stream<Supplier<?>> outside(Value<?> value) {
        if (value instanceof Value.Text t) {
            return outside(t);
        } else if (value instanceof Value.Name) {
            return outside(Value.Name.TEXT);
        } else if (value instanceof Value.Ride) {
            return outside(Value.Ride.TEXT);
        } else if (value instanceof Value.Real r) {
            return Stream.of(
                    () -> Math.nextDown(r.least()),
                    () -> Math.nextUp(r.most()),
                    () -> Double.NaN,
                    () -> Double.POSITIVE_INFINITY);
        } else if (value instanceof Value.Whole w) {
            return w.most() == Long.MAX_VALUE
                    ? Stream.of(() -> w.least() - 1)
                    : Stream.of(() -> w.least() - 1, () -> w.most() + 1);
        } else if (value instanceof Value.Count c) {
            return Stream.of(() -> c.least() - 1, () -> c.most() + 1);
        } else if (value instanceof Value.Time t) {
            return Stream.of(() -> newYear(t.firstYear()).minusMillis(1), () -> newYear(Value.Time.LAST_YEAR + 1));
        } else if (value instanceof Value.Items<?> i) {
            Stream<Supplier<?>> each = outside(i.each())
                    .map(v -> () -> IntStream.range(0, Math.max(1, i.least()))
                            .mapToObj(n -> v.get())
                            .toList());
            return i.least() == 0 ? each : Stream.concat(each, Stream.of(List::of));
        } else if (value instanceof Value.Choice<?> c) {
            return c.forms().stream().flatMap(f -> whole(f.shape()));
        } else if (value instanceof Shape<?> s) {
            return whole(s);
        } else if (value instanceof Value.Truth || value instanceof Value.Word<?>) {
            return Stream.of(); // all that can be is within bounds
        }
        throw new AssertionError("nothing out of bounds for " + value);
    }

    private <T> Stream<Supplier<?>> whole(Shape<T> shape) {
        return outside(shape, made(shape)).map(s -> s);
    }

    private static Stream<Supplier<?>> outside(Value.Text t) {
        Stream<Supplier<?>> always = Stream.of(() -> "x".repeat(t.most() + 1));
        Stream<Supplier<?>> steering =
                t.plain() ? Stream.of(() -> "\u001b[2J".substring(0, t.most() > 3 ? 4 : 3)) : Stream.of();
        Stream<Supplier<?>> shorter = t.least() > 0 ? Stream.of(() -> "x".repeat(t.least() - 1)) : Stream.of();
        return Stream.of(always, steering, shorter).flatMap(s -> s);
    }

    private String plain(int least, int most) {
        List<String> fit = PLAIN.stream()
                .filter(s -> s.length() >= least && s.length() <= most)
                .toList();
        return pick(fit);
    }

    private static Instant newYear(int year) {
        return LocalDate.of(year, 1, 1).atStartOfDay(ZoneOffset.UTC).toInstant();
    }

    private <T> T pick(List<T> from) {
        return from.get(random.nextInt(from.size()));
    }
}
