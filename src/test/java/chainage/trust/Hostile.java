package chainage.trust;

import chainage.cli.LogbookBytes;
import chainage.evidence.EvidenceException;
import chainage.evidence.EvidenceFile;
import chainage.evidence.RiderEvidence;
import chainage.importer.UnpackBytes;
import chainage.loopback.FormBytes;
import chainage.quantity.ContentDigest;
import chainage.ride.Ride;
import chainage.ridefile.Decoded;
import chainage.ridefile.RideFileException;
import chainage.ridefile.RideFiles;
import chainage.store.Delivery;
import chainage.store.ExportException;
import chainage.store.LedgerFile;
import chainage.store.Source;
import chainage.weather.BadLine;
import chainage.weather.CsvOptions;
import chainage.weather.Metar;
import chainage.weather.Observation;
import chainage.weather.Place;
import chainage.weather.PrecipitationCsv;
import chainage.weather.WeatherException;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.YearMonth;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Iterator;
import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;

/**
 * Everything from outside that the program reads. Any bytes end in facts or in a refusal of one line; whatever else is
 * thrown is a fault of ours. Seeds of each lie in {@code src/test/resources/hostile}, found faults among them.
 */
enum Hostile {
    FIT,
    GPX,
    TCX,
    ARCHIVE,
    METAR,
    TABLE,
    EXPORT,
    EVIDENCE,
    LOGBOOK,
    FORM;

    private static final Instant LATEST = Instant.parse("2027-01-01T00:00:00Z");

    /** Written to a ledger one in so many, since a ledger grows. */
    private static final int KEPT = 16;

    private static final int LEDGER_RIDES = 20_000;

    private static int rides;

    /** The folder of this kind's seeds. */
    Path folder() {
        return Path.of("src/test/resources/hostile", name().toLowerCase(Locale.ROOT));
    }

    List<byte[]> seeds() throws IOException {
        List<byte[]> seeds = new ArrayList<>();
        try (Stream<Path> files = Files.list(folder())) {
            for (Path file : files.sorted().toList()) {
                seeds.add(Files.readAllBytes(file));
            }
        }
        return seeds;
    }

    /** Reads the bytes as this kind of input. */
    void read(byte[] content) {
        read(content, content.length % KEPT == 0);
    }

    /**
     * Reads each seed as it is, cut short and with its last byte bent, and writes it to a ledger, so that no later input
     * is the first to need a class: a damaged file goes another way than a whole one.
     */
    void load() throws IOException {
        for (byte[] seed : seeds()) {
            byte[] bent = seed.clone();
            bent[bent.length - 1] ^= 1;
            for (byte[] one : List.of(seed, bent, Arrays.copyOf(seed, seed.length / 2))) {
                read(one, true);
            }
        }
    }

    private void read(byte[] content, boolean isKept) {
        try {
            switch (this) {
                case FIT, GPX, TCX -> ride(content, isKept);
                case ARCHIVE -> UnpackBytes.unpack(content, Scratch.FOLDER);
                case METAR ->
                    Metar.read(lines(content), YearMonth.of(2026, 3), Place.UNKNOWN, Hostile::keep, Hostile::refuse);
                case TABLE -> table(content);
                case EXPORT -> restore(content);
                case EVIDENCE -> evidence(content);
                case LOGBOOK -> LogbookBytes.read(content).forEach(Hostile::line);
                case FORM -> FormBytes.read(content);
            }
        } catch (IOException | InterruptedException e) {
            throw new IllegalStateException(e);
        }
    }

    private static Iterator<String> lines(byte[] content) {
        return new String(content, StandardCharsets.UTF_8).lines().iterator();
    }

    private static void ride(byte[] content, boolean isKept) throws IOException {
        try {
            Decoded decoded = RideFiles.decode(content, LATEST);
            decoded.passed().forEach(p -> line(p.what()));
            for (Ride r : decoded.activities()) {
                require(!r.start().isAfter(LATEST), "starts " + r.start());
                require(r.distance().metres() >= 0 && r.distance().metres() < 5_000_000, r.distance() + "");
                require(r.elapsedSeconds() >= 0 && r.movingSeconds() >= 0, "times " + r);
            }
            if (!decoded.activities().isEmpty() && isKept) {
                keep(content, decoded.activities());
            }
        } catch (RideFileException e) {
            line(e.what());
            line(e.hint());
        }
        try {
            RideFiles.track(content);
        } catch (RideFileException e) {
            line(e.what());
        }
    }

    /** What was read must go into a ledger, and come out again. */
    private static void keep(byte[] content, List<Ride> found) throws IOException {
        if (rides++ % LEDGER_RIDES == 0) {
            Scratch.renew();
        }
        Scratch.ledger.appendRides(List.of(new Delivery(
                new Source("/x", content.length, 0, ContentDigest.of(content), Source.Verdict.IMPORTED, "", "", 0),
                found)));
    }

    private static void table(byte[] content) {
        try {
            PrecipitationCsv.read(lines(content), CsvOptions.DEFAULT, Hostile::keep, Hostile::refuse);
        } catch (WeatherException e) {
            line(e.what());
        }
    }

    private static void keep(Observation o) {
        require(o.at().isAfter(Instant.MIN), o.toString());
    }

    private static void refuse(BadLine bad) {
        line(bad.what());
    }

    private static void restore(byte[] content) throws IOException {
        try {
            Scratch.ledger.restore(new ByteArrayInputStream(content), true);
        } catch (ExportException e) {
            line(e.hint());
        }
    }

    /** What was read must come back from what is kept of it. */
    private static void evidence(byte[] content) {
        List<RiderEvidence> riders;
        try {
            riders = EvidenceFile.read(lines(content));
        } catch (EvidenceException e) {
            e.lines().forEach(bad -> line(bad.what()));
            return;
        }
        try {
            String kept = EvidenceFile.text(riders);
            String again = EvidenceFile.text(EvidenceFile.read(kept.lines().iterator()));
            require(kept.equals(again), "read again it is another: " + again);
        } catch (EvidenceException e) {
            throw new AssertionError("what was read is not read again: " + e.lines(), e);
        }
    }

    /** A ledger, in memory where there is such a place, so that the disk is not what limits the pace. */
    private static final class Scratch {
        static final Path FOLDER;
        static LedgerFile ledger;

        static {
            try {
                Path memory = Path.of("/dev/shm");
                FOLDER = Files.isWritable(memory)
                        ? Files.createTempDirectory(memory, "chainage-")
                        : Files.createTempDirectory("chainage-");
                ledger = LedgerFile.open(FOLDER.resolve("ledger.sqlite"));
            } catch (IOException e) {
                throw new UncheckedIOException(e);
            }
            Runtime.getRuntime().addShutdownHook(new Thread(() -> {
                try {
                    Site.delete(FOLDER);
                } catch (IOException e) {
                    throw new UncheckedIOException(e);
                }
            }));
        }

        static void renew() throws IOException {
            ledger.close();
            Files.delete(ledger.path());
            ledger = LedgerFile.open(ledger.path());
        }
    }

    private static void line(String text) {
        require(text.indexOf('\n') < 0, "more than a line: " + text);
    }

    private static void require(boolean holds, String what) {
        if (!holds) {
            throw new AssertionError(what);
        }
    }
}
