package chainage.cli;

import chainage.exposure.ChainExposure;
import chainage.ledger.Event;
import chainage.standing.Dates;
import chainage.standing.Standing;
import chainage.treatment.TreatmentStanding;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/** The answer for scripts; names and units are a promise, fields are only ever added. */
final class DueJson {
    private DueJson() {}

    static Json of(Picture picture, List<Standing> shown, Words words) {
        return new Json()
                .put("at", picture.at())
                .put("chains", chains(picture, shown, words))
                .number("unattributed_metres", picture.exposures().unattributedMetres(), 1);
    }

    static List<Json> chains(Picture picture, List<Standing> shown, Words words) {
        return shown.stream().map(s -> chain(picture, s, words)).toList();
    }

    private static Json chain(Picture picture, Standing s, Words words) {
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
                .put("treat_on", dates(s.treatOn(), words))
                .put("treat_by", dates(s.treatBy(), words))
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
                .put("replace_on", dates(s.replaceOn(), words))
                .put("nearest", s.nearest().name().toLowerCase(Locale.ROOT))
                .put("condemned", condemned == null ? null : condemned.remark().word())
                .put("noisy", t.noisy() != null)
                .put("why", WhyText.lines(picture, s, words));
    }

    private static @Nullable Json dates(@Nullable Dates d, Words words) {
        return d == null
                ? null
                : new Json()
                        .put("low", words.date(d.low()))
                        .put("likely", words.date(d.likely()))
                        .put("high", words.date(d.high()));
    }
}
