package chainage.evidence;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.stream.Stream;

/** Riders of our own making with lives by the dozen: as many as a large club has, quickly and always the same. */
public final class Club {
    private record Kind(String method, String product, int km) {}

    private static final List<Kind> KINDS = List.of(
            new Kind("hot-wax", "Pond Wax", 310),
            new Kind("hot-wax", "Thistle", 280),
            new Kind("hot-wax", "Moss", 420),
            new Kind("cold-dip-wax", "Heron Dip", 340),
            new Kind("drip-wax", "Sedge Drops", 520),
            new Kind("drip-wax", "Teasel", 640),
            new Kind("dry-lube", "Wheatear", 210),
            new Kind("wet-lube", "Fen Oil", 350),
            new Kind("wet-lube", "Bittern", 290));

    /** One rider in so many has two power meters. */
    private static final int PAIRED = 4;

    private Club() {}

    /** Lines of a file of evidence. */
    public static Stream<String> file(int riders, int lives) {
        List<String> lines = new ArrayList<>();
        lines.add("{\"format\":\"chain evidence\",\"version\":3,\"distance\":\"km\"}");
        for (int r = 1; r <= riders; r++) {
            Random random = new Random(r);
            Kind[] used = random.ints(3, 0, KINDS.size()).mapToObj(KINDS::get).toArray(Kind[]::new);
            double own = Math.exp(0.25 * random.nextGaussian());
            for (int t = 0; t < lives; t++) {
                lines.add(line(random, r, used[t % used.length], own));
            }
            lines.add(chain(random, r, used[0], own));
            if (r % PAIRED == 0) {
                lines.add(paired(random, r, used));
            }
        }
        return lines.stream();
    }

    private static String line(Random random, int rider, Kind kind, double own) {
        int dry = steps(kind.km() * own * Math.exp(0.25 * random.nextGaussian()) * 0.8);
        int wet = steps(40 * random.nextDouble());
        int gritty = steps(60 * random.nextDouble());
        boolean heard = random.nextInt(3) > 0;
        return "{\"rider\":" + rider + ",\"method\":\"" + kind.method() + "\",\"product\":\"" + kind.product()
                + "\",\"cleaning\":\"quick\",\"load\":1.0,\"km\":{\"dry-clean\":" + (dry + 40) + ",\"wet-clean\":" + wet
                + ",\"dry-gritty\":" + gritty + "}"
                + (heard
                        ? ",\"last_ride_km\":{\"dry-clean\":" + steps(20 + 20 * random.nextDouble())
                                + "},\"end\":\"noisy\"}"
                        : ",\"end\":\"silent\"}");
    }

    private static String chain(Random random, int rider, Kind kind, double own) {
        StringBuilder readings = new StringBuilder();
        for (int i = 1; i <= 4; i++) {
            readings.append(i > 1 ? "," : "")
                    .append("{\"tool\":\"ruler\",\"percent\":")
                    .append(Math.rint(i * 5 / own + 10 * random.nextGaussian()) / 100)
                    .append(",\"error\":0.1,\"ridden\":[{\"method\":\"")
                    .append(kind.method())
                    .append("\",\"product\":\"")
                    .append(kind.product())
                    .append("\",\"load\":1.0,\"km\":{\"dry-clean\":")
                    .append(900 * i)
                    .append(",\"wet-clean\":")
                    .append(50 * i)
                    .append("}}]}");
        }
        return "{\"rider\":" + rider + ",\"readings\":[" + readings + "]}";
    }

    /** Meters with an offset of their own, and a loss that grows over a life. */
    private static String paired(Random random, int rider, Kind[] used) {
        StringBuilder rides = new StringBuilder();
        double offset = 2 * random.nextGaussian();
        for (int i = 0; i < 12; i++) {
            int life = random.nextInt(11);
            double missing = 1.5 + 0.1 * life + (i % 2) * 0.4 + offset + 0.4 * random.nextGaussian();
            rides.append(i > 0 ? "," : "")
                    .append("{\"method\":\"")
                    .append(used[i % 2].method())
                    .append("\",\"product\":\"")
                    .append(used[i % 2].product())
                    .append("\",\"cleaning\":\"deep\",\"used\":")
                    .append(life / 10.0)
                    .append(",\"per_mu\":0.15,\"missing\":")
                    .append(Math.rint(100 * missing) / 100)
                    .append(",\"error\":0.1}");
        }
        return "{\"rider\":" + rider + ",\"paired\":[" + rides + "]}";
    }

    private static int steps(double km) {
        return 5 * (int) Math.max(1, Math.round(km / 5));
    }
}
