package padward.cli.batch;

import java.io.IOException;
import java.io.PrintWriter;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.CancellationException;
import java.util.function.Supplier;
import padward.base.BadInput;
import padward.base.Progress;
import padward.breakout.ask.Answer;
import padward.breakout.ask.Asker;
import padward.breakout.ask.Question;
import padward.breakout.ask.WantedDriver;
import padward.cli.form.AnswerForm;
import padward.cli.form.Reports;
import padward.cli.output.ExitStatus;
import padward.cli.output.WhatIfTable;
import padward.design.Design;
import padward.design.Net;
import padward.fabric.delay.Corner;
import padward.fabric.delay.DelayTooLong;
import padward.format.form.Form;
import padward.format.form.JsonText;
import padward.format.question.QuestionLines;
import padward.format.question.WrittenQuestion;
import padward.format.source.IoFaults;
import padward.format.source.Source;
import padward.route.search.SearchEngineKind;
import padward.unblock.why.SearchLimits;

/**
 * Answers questions one after the other and prints each answer as a line before it reads the next
 * question, so that their number does not matter to memory.
 */
public final class BatchRun {
    /** Designs with edits that are kept for the questions to come. */
    private static final int WHAT_IFS = 8;

    private final Manner manner;
    private final RememberedNames unchanged;
    private final Asker asker;
    private final PrintWriter out;
    private final Map<List<String>, RememberedNames> whatIfs = new LinkedHashMap<>();
    private final Form<Reports.Line> form = Reports.Line.form();
    private int status = ExitStatus.DONE;

    /**
     * How questions are answered.
     *
     * @param corner the corner of questions that state none
     * @param driver what is wanted of the pads' drivers
     * @param limits for explanations
     * @param progress a new one for each question, which may end it
     * @param brief whether answers are without explanation, route and cautions
     */
    public record Manner(
            SearchEngineKind engine,
            Corner corner,
            WantedDriver driver,
            SearchLimits limits,
            Supplier<Progress> progress,
            boolean brief) {}

    /**
     * @param out where the lines go
     */
    public BatchRun(Design design, Manner manner, PrintWriter out) {
        this.manner = manner;
        this.unchanged = new RememberedNames(design);
        this.asker = new Asker(design.fabric(), manner.engine());
        this.out = out;
    }

    /**
     * Answers all questions.
     *
     * @param source what messages call where they come from
     * @return the exit status: the gravest of all lines
     * @throws BadInput when what is there cannot be read line by line
     */
    public int answer(QuestionLines lines, Source source) throws BadInput {
        try {
            var line = lines.next();
            while (line.isPresent() && !out.checkError()) {
                if (line.get() instanceof QuestionLines.Line.Asked asked) {
                    answer(asked.question());
                } else if (line.get() instanceof QuestionLines.Line.Faulty faulty) {
                    print(fault(faulty.number(), "", faulty.fault()));
                    grade(ExitStatus.BAD_INPUT);
                }
                line = lines.next();
            }
        } catch (IOException fault) {
            throw IoFaults.describe(source, fault);
        }
        return status;
    }

    private void answer(WrittenQuestion written) {
        try {
            RememberedNames parts = parts(written.whatIf());
            List<Integer> pads = parts.pads(written.pad());
            for (Net net : parts.nets(written.net())) {
                for (int pad : pads) {
                    answer(written, parts.design(), net, pad);
                }
            }
        } catch (BadInput fault) {
            print(fault(written.line(), written.id(), fault));
            grade(ExitStatus.BAD_INPUT);
        }
    }

    private void answer(WrittenQuestion written, Design design, Net net, int pad) throws BadInput {
        Question question =
                new Question(
                        design,
                        net,
                        pad,
                        written.corner().orElse(manner.corner()),
                        manner.driver());
        Progress progress = manner.progress().get();
        try {
            Answer answer =
                    manner.brief()
                            ? asker.answer(question, progress)
                            : asker.explained(question, manner.limits(), progress);
            grade(answer instanceof Answer.Open ? ExitStatus.DONE : ExitStatus.NOT_OPEN);
            print(line(written, AnswerForm.Given.of(answer), manner.brief()));
        } catch (CancellationException stopped) {
            grade(ExitStatus.NOT_OPEN);
            String sentence = "Undecided: the search was stopped before it had an answer.";
            print(line(written, AnswerForm.Given.undecided(question, sentence), false));
        } catch (DelayTooLong fault) {
            throw new BadInput("net", "", "" + fault.getMessage(), "a longer route");
        }
    }

    /** The design's parts under edits. */
    private RememberedNames parts(List<String> whatIf) throws BadInput {
        if (whatIf.isEmpty()) {
            return unchanged;
        }
        RememberedNames known = whatIfs.get(whatIf);
        if (known == null) {
            if (whatIfs.size() == WHAT_IFS) {
                whatIfs.remove(whatIfs.keySet().iterator().next());
            }
            known = new RememberedNames(WhatIfTable.apply(unchanged.design(), whatIf));
            whatIfs.put(whatIf, known);
        }
        return known;
    }

    private void grade(int next) {
        status = Math.max(status, next);
    }

    private static Reports.Line fault(long line, String id, BadInput fault) {
        return new Reports.Line(line, id, Optional.empty(), false, Optional.of(fault));
    }

    private static Reports.Line line(
            WrittenQuestion written, AnswerForm.Given answer, boolean brief) {
        return new Reports.Line(
                written.line(), written.id(), Optional.of(answer), brief, Optional.empty());
    }

    private void print(Reports.Line line) {
        out.println(JsonText.line(form, line));
    }
}
