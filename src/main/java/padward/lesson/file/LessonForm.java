package padward.lesson.file;

import static padward.format.form.Kinds.choice;
import static padward.format.form.Kinds.flag;
import static padward.format.form.Kinds.list;
import static padward.format.form.Kinds.name;
import static padward.format.form.Kinds.prose;
import static padward.format.form.Kinds.whole;

import java.util.List;
import padward.fabric.delay.Corner;
import padward.format.form.Fields;
import padward.format.form.FileForm;
import padward.format.form.Form;
import padward.format.form.Kind;
import padward.format.form.Schema;
import padward.format.form.Variants;
import padward.format.json.FileHeader;
import padward.format.source.FileLimits;
import padward.lesson.Lesson;
import padward.lesson.LessonStep;
import padward.lesson.UserAction;
import padward.lesson.condition.Condition;
import padward.watch.request.CircuitSort;

/** The form of lessons, which are only read. */
final class LessonForm {
    private static final int MOST_LESSONS = 1_000;
    private static final int MAX_OPTIONS = 64;

    private LessonForm() {}

    private static Kind<String> text() {
        return prose(FileLimits.NOTE);
    }

    /** A lesson's file. */
    static FileForm<Lesson> lesson() {
        var lesson = new Fields<Lesson>();
        lesson.constant("format", FileHeader.LESSON);
        var number =
                lesson.needed("number", whole(1, MOST_LESSONS)).means("its place in the course");
        var name = lesson.needed("name", name()).means("the word for it in commands");
        var title = lesson.needed("title", name()).means("its title");
        var goal = lesson.needed("goal", text()).means("what is learnt");
        var design = lesson.needed("design", name()).means("the design's file");
        var steps = lesson.needed("steps", atLeastOne(step(), "step")).means("its steps");
        var why = lesson.needed("why", text()).means("why it matters");
        var sources =
                lesson.optional("sources", list(text()), List.of())
                        .means("where it can be read up");
        return lesson.makesFile(
                () ->
                        new Lesson(
                                number.get(),
                                name.get(),
                                title.get(),
                                goal.get(),
                                design.get(),
                                steps.get(),
                                why.get(),
                                sources.get()));
    }

    private static <V> Kind<List<V>> atLeastOne(Kind<V> kind, String what) {
        return list(kind)
                .checked(
                        (in, all) -> {
                            if (all.isEmpty()) {
                                throw in.fault("at least one " + what, "none");
                            }
                        })
                .limited(Schema.any().with("minItems", 1));
    }

    /** An empty list of conditions would always be fulfilled. */
    private static Kind<List<Condition>> conditions() {
        return atLeastOne(ConditionForm.condition(), "condition");
    }

    private static Form<LessonStep> step() {
        var step = new Fields<LessonStep>();
        var task = step.needed("task", text()).means("what is to be done");
        var done = step.needed("done", conditions()).means("when it is done");
        var mistakes =
                step.optional("mistakes", list(mistake()), List.of()).means("what may go wrong");
        var hints = step.needed("hints", list(text())).means("hints, one after the other");
        var solution = step.needed("solution", list(action())).means("what solves it");
        return step.makes(
                () ->
                        new LessonStep(
                                task.get(),
                                done.get(),
                                mistakes.get(),
                                hints.get(),
                                solution.get()));
    }

    private static Form<LessonStep.Mistake> mistake() {
        var mistake = new Fields<LessonStep.Mistake>();
        var when = mistake.needed("when", conditions()).means("when it was made");
        var say = mistake.needed("say", text()).means("what is said then");
        return mistake.makes(() -> new LessonStep.Mistake(when.get(), say.get()));
    }

    private static Kind<UserAction> action() {
        Variants<UserAction> actions = new Variants<>("do", false);
        var net = actions.member("net", name(), "").means("name of the net");
        var pad = actions.member("pad", name(), "").means("name of the pad");
        var corner =
                actions.member("corner", choice(Corner.values(), Corner::label), Corner.SLOW)
                        .means("otherwise `slow`");
        var vertex = actions.member("vertex", name(), "").means("name of the hop");
        var option =
                actions.member("option", whole(1, MAX_OPTIONS), 1)
                        .means("its place in the list, from 1");
        actions.type("ask", UserAction.Ask.class)
                .needs(net, pad)
                .may(corner)
                .makes(() -> new UserAction.Ask(net.get(), pad.get(), corner.get()));
        var circuit =
                actions.member(
                                "circuit",
                                choice(CircuitSort.values(), CircuitSort::label),
                                CircuitSort.TRIGGER)
                        .means("the sort of watch circuit, otherwise `trigger`");
        var when = actions.member("when", name(), "").means("the circuit's condition");
        var registered =
                actions.member("registered", flag(), true)
                        .means("whether a register stands before the pad; otherwise so");
        actions.type("watch", UserAction.Watch.class)
                .needs(when, pad)
                .may(circuit, registered)
                .makes(
                        () ->
                                new UserAction.Watch(
                                        circuit.get(), when.get(), pad.get(), registered.get()));
        actions.type("choose-hop", UserAction.ChooseHop.class)
                .needs(vertex)
                .makes(() -> new UserAction.ChooseHop(vertex.get()));
        actions.type("choose-option", UserAction.ChooseOption.class)
                .needs(option)
                .makes(() -> new UserAction.ChooseOption(option.get() - 1));
        actions.type("try", UserAction.TryIt.class).makes(() -> new UserAction.TryIt());
        actions.type("keep", UserAction.Keep.class).makes(() -> new UserAction.Keep());
        actions.type("drop", UserAction.Drop.class).makes(() -> new UserAction.Drop());
        actions.type("undo", UserAction.Undo.class).makes(() -> new UserAction.Undo());
        return actions;
    }
}
