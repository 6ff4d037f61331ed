package padward.cli.output;

import java.io.PrintWriter;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import padward.base.BadInput;
import padward.base.Listing;
import padward.breakout.survey.WhatIfReport;
import padward.breakout.text.AnswerText;
import padward.breakout.text.PriceText;
import padward.change.Edit;
import padward.change.EditText;
import padward.change.Outcome;
import padward.design.Design;
import padward.fabric.Pad;

/** Prints the gains and costs of a what-if. */
public final class WhatIfTable {
    private static final int MOST_NAMED = 8;

    private WhatIfTable() {}

    /** A design with edits, stated in words, applied to it. */
    public static Design apply(Design design, List<String> texts) throws BadInput {
        try {
            return Outcome.apply(design, parse(design, texts));
        } catch (IllegalArgumentException fault) {
            throw new BadInput("--what-if", "", "edits that fit the design", fault.getMessage());
        }
    }

    /** Edits stated in words. */
    public static List<Edit> parse(Design design, List<String> texts) throws BadInput {
        List<Edit> result = new ArrayList<>();
        for (String text : texts) {
            result.add(EditText.parse(design, text, "--what-if"));
        }
        return result;
    }

    public static void print(WhatIfReport report, PrintWriter out) {
        String edits = report.edits().stream().map(Edit::toText).collect(Collectors.joining(", "));
        out.println("What if: " + edits + ". Nothing is changed.");
        out.println("Without it: " + AnswerText.word(report.before()) + ".");
        out.println("What it costs: " + PriceText.sentences(report.price()));
        out.println("Newly open pads: " + pads(report.newlyOpen()) + ".");
        if (!report.noLongerOpen().isEmpty()) {
            out.println("No longer open: " + pads(report.noLongerOpen()) + ".");
        }
        out.println();
    }

    private static String pads(List<Pad> pads) {
        return named(pads.stream().map(Pad::name).toList());
    }

    private static String named(List<String> names) {
        return names.isEmpty() ? "none" : Listing.first(names, MOST_NAMED);
    }
}
