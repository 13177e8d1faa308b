package chainage.intake;

import static org.junit.jupiter.api.Assertions.assertEquals;

import chainage.importer.Outcome;
import chainage.store.Source;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

class ImportIndexTest {
    @ParameterizedTest
    @EnumSource(mode = EnumSource.Mode.EXCLUDE, names = "LOGBOOK") // remembered by its lines, not as a file
    void whatIsKeptOfAFileComesBackAsItWas(Outcome.Kind kind) {
        assertEquals(kind, ImportIndex.kind(ImportIndex.verdict(kind)));
    }

    @ParameterizedTest
    @EnumSource
    void everyVerdictKeptHasAKindOfItsOwn(Source.Verdict verdict) {
        assertEquals(verdict, ImportIndex.verdict(ImportIndex.kind(verdict)));
    }
}
