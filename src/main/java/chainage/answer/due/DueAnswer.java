package chainage.cli;

import chainage.analysis.Analysis;
import chainage.exposure.ChainExposure;
import chainage.ledger.Event;
import chainage.render.Formatter;
import chainage.render.Json;
import chainage.standing.Dates;
import chainage.standing.Standing;
import chainage.treatment.TreatmentStanding;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/** The answer for scripts; names and units are a promise, fields are only ever added. */
final class DueJson {
    private DueJson() {}

    static Json of(Analysis analysis, List<Standing> shown, Formatter format) {
        return new Json()
                .put("at", analysis.at())
                .put("chains", chains(analysis, shown, format))
                .number("unattributed_metres", analysis.exposures().unattributedMetres(), 1);
    }

    static List<Json> chains(Analysis analysis, List<Standing> shown, Formatter format) {
        return shown.stream().map(s -> chain(analysis, s, format)).toList();
    }

    private static Json chain(Analysis analysis, Standing s, Formatter format) {
        ChainExposure e = s.exposure();
        TreatmentStanding t = s.treatment();
        Event.Remarked condemned = s.wear().condemned();
        return new Json()
                .put("chain", s.chain())
                .put("bike", s.bike())
                .put("product", e.product().product())
                .put("treated_at", e.treatedAt())
                .number("ridden_metres", e.riddenMetres(), 1)
                .number("metres_since_treatment", e.metresSinceTreatment(), 1)
                .number("treatment_exposure_metres", t.exposureMetres(), 1)
                .estimate("treatment_life_metres", t.lifeMetres(), 1)
                .number("treatment_limit_metres", t.limitMetres(), 1)
                .number("treatment_used", t.used(), 4)
                .number("treatment_used_of_likely", t.usedOfLikely(), 4)
                .number("treatment_left_metres", t.dueInMetres(), 1)
                .estimate("treatment_left", t.leftMetres(), 1)
                .put("treat_on", dates(s.treatOn(), format))
                .put("treat_by", dates(s.treatBy(), format))
                .number(
                        "treatment_lives_ended",
                        t.product() == null ? 0 : t.product().ended(),
                        0)
                .number(
                        "treatment_lives_silent",
                        t.product() == null ? 0 : t.product().silent(),
                        0)
                .estimate("elongation_pct", s.wear().elongationPercent(), 4)
                .number("limit_pct", s.wear().limitPercent(), 4)
                .number("expected_pct", s.wear().expectedPercent(), 4)
                .estimate("pace", s.wear().elongation().pace(), 4)
                .number("over_limit_chance", s.wear().over(), 4)
                .number("readings", s.wear().readings().size(), 0)
                .number("replacement_used", s.wear().used(), 4)
                .estimate("replacement_left_metres", s.wear().leftMetres(), 1)
                .put("replace_on", dates(s.replaceOn(), format))
                .put("nearest", s.nearest().name().toLowerCase(Locale.ROOT))
                .put("condemned", condemned == null ? null : condemned.remark().word())
                .put("noisy", t.noisy() != null)
                .put("why", WhyText.lines(analysis, s, format));
    }

    private static @Nullable Json dates(@Nullable Dates d, Formatter format) {
        return d == null
                ? null
                : new Json()
                        .put("low", format.date(d.low()))
                        .put("likely", format.date(d.likely()))
                        .put("high", format.date(d.high()));
    }
}
