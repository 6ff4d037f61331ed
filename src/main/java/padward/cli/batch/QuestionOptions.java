package padward.cli.batch;

import java.io.IOException;
import java.io.InputStreamReader;
import java.io.Reader;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.Supplier;
import padward.base.BadInput;
import padward.base.Progress;
import padward.breakout.ask.Question;
import padward.breakout.wanted.WantedCheck;
import padward.breakout.wanted.WantedNet;
import padward.breakout.wanted.WantedResult;
import padward.cli.option.DesignOption;
import padward.cli.option.DriverOption;
import padward.cli.option.NetOption;
import padward.cli.option.QuestionOption;
import padward.design.Design;
import padward.design.NameLookup;
import padward.design.Net;
import padward.fabric.delay.Corner;
import padward.format.question.QuestionLines;
import padward.format.source.IoFaults;
import padward.format.source.Source;
import padward.format.source.TextSource;
import padward.route.search.SearchEngineKind;
import padward.unblock.why.SearchLimits;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** The options that state one question, or where many are. */
public final class QuestionOptions {
    private static final String STANDARD_INPUT = "standard input";

    @Spec(Spec.Target.MIXEE)
    private CommandSpec spec;

    @Option(
            names = {"-n", "--net"},
            paramLabel = "NET",
            description = NetOption.MEANING)
    private String net;

    @Option(
            names = {"-p", "--pad"},
            paramLabel = "PAD",
            description = QuestionOption.PAD_MEANING)
    private String pad;

    @Option(
            names = "--corner",
            defaultValue = QuestionOption.USUAL_CORNER,
            description = QuestionOption.CORNER_MEANING)
    private Corner corner;

    @Option(
            names = "--batch",
            paramLabel = "FILE",
            description =
                    "Answers all questions of a file, or of standard input when this is -, each as"
                            + " a line of JSON as soon as it is answered. The file is a table (CSV)"
                            + " with the columns net and pad and, if you like, id, corner and what-if,"
                            + " or it has an object of JSON in each line. A net can be a pattern, a pad"
                            + " too, or 'header NAME', 'bank NAME', 'any': then there is a line for"
                            + " each. A question at fault gives a line with the error.")
    private Path batch;

    @Option(
            names = "--brief",
            description =
                    "With --batch: what the answer is, delay, the port that loses its pad, and "
                            + "obstacles without proof that they are the fewest; in far less time "
                            + "where many are blocked.")
    private boolean brief;

    @Option(
            names = "--was",
            paramLabel = "FILE",
            description =
                    "The design before the last run of the implementation: a net that is not there"
                            + " any more is then found by its driver, or the registers around it are"
                            + " listed that can be seen instead.")
    private Path was;

    @Mixin private DriverOption driver;

    /** The options of one question, which leaves all else as it usually is. */
    public static QuestionOptions of(String net, String pad) {
        QuestionOptions option = new QuestionOptions();
        option.net = net;
        option.pad = pad;
        option.corner = Corner.valueOf(QuestionOption.USUAL_CORNER.toUpperCase(Locale.ROOT));
        option.driver = new DriverOption();
        return option;
    }

    /** The corner at which routes have the shortest delay, where a question states no other. */
    public Corner corner() {
        return corner;
    }

    /**
     * Checks that one question is stated, or many.
     *
     * @param whatIf edits stated by another option
     */
    public void check(List<String> whatIf) throws BadInput {
        if (batch == null) {
            List<String> missing = new ArrayList<>();
            if (net == null) {
                missing.add("'--net=NET'");
            }
            if (pad == null) {
                missing.add("'--pad=PAD'");
            }
            if (!missing.isEmpty()) {
                String options = missing.size() == 1 ? " option: " : " options: ";
                throw new ParameterException(
                        spec.commandLine(),
                        "Missing required" + options + String.join(", ", missing));
            }
            if (brief) {
                throw new BadInput("--brief", "", "it together with --batch", "no --batch");
            }
        } else if (was != null) {
            throw new BadInput("--was", "", "it without --batch", "--batch");
        } else if (net != null || pad != null || !whatIf.isEmpty()) {
            throw new BadInput(
                    "--batch",
                    "",
                    "nets, pads and what-ifs in the file only",
                    "--net, --pad or --what-if");
        }
    }

    /** Whether there are many questions. */
    public boolean isBatch() {
        return batch != null;
    }

    /**
     * What became of the net since an earlier design, if that is given and the net is not there.
     *
     * @param option how the present design was read
     */
    public Optional<WantedResult> findFormer(Design design, DesignOption option) throws BadInput {
        boolean there = !(NameLookup.net(design, net) instanceof NameLookup.Match.None<Net>);
        if (was == null || there) {
            return Optional.empty();
        }
        Design before = option.read(was);
        WantedNet wanted = new WantedNet(net, List.of(pad), true);
        return Optional.of(
                new WantedCheck(design, Optional.of(before), corner, 0)
                        .of(wanted, option.progress()));
    }

    /** The one question about a design. */
    public Question about(Design design) throws BadInput {
        return about(design, DesignOption.net("--net", design, net));
    }

    /** The one question about a design and the net that is meant. */
    public Question about(Design design, Net found) throws BadInput {
        return new Question(
                design, found, DesignOption.pad(design, pad), corner, driver.of(design));
    }

    /**
     * Answers the many questions.
     *
     * @param progress a new one for each question
     * @return the exit status
     */
    public int answerAll(
            Design design,
            SearchEngineKind engine,
            SearchLimits limits,
            Supplier<Progress> progress)
            throws BadInput {
        BatchRun run =
                new BatchRun(
                        design,
                        new BatchRun.Manner(
                                engine, corner, driver.of(design), limits, progress, brief),
                        spec.commandLine().getOut());
        boolean standard = batch.toString().equals("-");
        Source source = standard ? new Source.OfText(STANDARD_INPUT, "") : Source.of(batch);
        try (Reader text = standard ? standardInput() : TextSource.open(source, Progress.NONE)) {
            return run.answer(new QuestionLines(source.label(), text), source);
        } catch (IOException fault) {
            throw IoFaults.describe(source, fault);
        }
    }

    private static Reader standardInput() {
        return new InputStreamReader(
                System.in,
                StandardCharsets.UTF_8
                        .newDecoder()
                        .onMalformedInput(CodingErrorAction.REPORT)
                        .onUnmappableCharacter(CodingErrorAction.REPORT));
    }
}
