package padward.lesson;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import padward.base.BadInput;
import padward.base.Progress;
import padward.breakout.ask.Answer;
import padward.breakout.ask.AnswerEdits;
import padward.breakout.ask.Asker;
import padward.breakout.ask.Hop;
import padward.breakout.ask.Question;
import padward.breakout.ask.Route;
import padward.breakout.ask.WhyBlocked;
import padward.change.Edit;
import padward.change.LedgerEntry;
import padward.change.Outcome;
import padward.design.Design;
import padward.design.Net;
import padward.lesson.condition.Condition;
import padward.lesson.condition.WindowState;
import padward.watch.answer.WatchText;
import padward.watch.place.WatchPlacer;
import padward.watch.place.WatchQuestion;
import padward.watch.place.WatchResult;

/**
 * Performs user actions without a window, with the same results as in the window. Proves that a
 * lesson can be solved. Not thread-safe.
 */
public final class SolutionPlayer {
    private final Design original;
    private final List<LedgerEntry> kept = new ArrayList<>();
    private Design now;
    private Optional<Answer> answer = Optional.empty();
    private int option;
    private Optional<Integer> hop = Optional.empty();
    private Optional<WindowState.Tried> whatIf = Optional.empty();

    /** Starts with a design that has just been opened. */
    public SolutionPlayer(Design design) {
        original = design;
        now = design;
    }

    /** The state after the actions so far. */
    public WindowState state() {
        return new WindowState(
                original, now, answer, option(), route(), hop, whatIf, List.copyOf(kept));
    }

    private Optional<WhyBlocked.Option> option() {
        return answer.flatMap(a -> a instanceof Answer.Blocked b ? b.why() : Optional.empty())
                .map(WhyBlocked::options)
                .filter(all -> option < all.size())
                .map(all -> all.get(option));
    }

    private Optional<Route> route() {
        Optional<Answer> shown = whatIf.isPresent() ? whatIf.map(t -> t.after()) : answer;
        if (whatIf.isEmpty() && option().isPresent()) {
            return option().map(WhyBlocked.Option::route);
        }
        return shown.flatMap(Answer::findRoute);
    }

    /**
     * Performs an action.
     *
     * @return why it is not possible now; empty when it has been performed
     */
    public Optional<String> act(UserAction action) {
        if (action instanceof UserAction.Ask ask) {
            return ask(ask);
        }
        if (action instanceof UserAction.ChooseHop choose) {
            return choose(choose.vertex());
        }
        if (action instanceof UserAction.ChooseOption choice) {
            option = choice.index();
            hop = Optional.empty();
            return option().isPresent()
                    ? Optional.empty()
                    : Optional.of("there is no option to unblock number " + (choice.index() + 1));
        }
        if (action instanceof UserAction.TryIt) {
            return tryOut();
        }
        if (action instanceof UserAction.Keep) {
            return keep();
        }
        if (action instanceof UserAction.Watch watch) {
            return watch(watch);
        }
        if (action instanceof UserAction.Drop) {
            whatIf = Optional.empty();
            return Optional.empty();
        }
        return undo();
    }

    private Optional<String> ask(UserAction.Ask ask) {
        Optional<Net> net = now.findNet(ask.net());
        List<Integer> pads = Condition.pads(now, ask.pad());
        if (net.isEmpty() || pads.size() != 1) {
            return Optional.of(
                    net.isEmpty()
                            ? "there is no net " + ask.net()
                            : ask.pad() + " is not the name of exactly one pad");
        }
        answered(Asker.ask(new Question(now, net.get(), pads.get(0), ask.corner()), Progress.NONE));
        return Optional.empty();
    }

    private void answered(Answer next) {
        answer = Optional.of(next);
        option = 0;
        hop = Optional.empty();
        whatIf = Optional.empty();
    }

    private Optional<String> choose(String vertex) {
        if (route().isPresent()) {
            List<Hop> hops = route().get().hops();
            for (int i = 0; i < hops.size(); i++) {
                if (hops.get(i).name().equals(vertex)) {
                    hop = Optional.of(i);
                    return Optional.empty();
                }
            }
        }
        return Optional.of("the route has no hop " + vertex);
    }

    private Optional<String> tryOut() {
        List<Edit> edits = List.of();
        if (answer.orElse(null) instanceof Answer.FreeRoute open) {
            edits = AnswerEdits.of(open);
        } else if (answer.orElse(null) instanceof Answer.Blocked blocked && option().isPresent()) {
            edits = AnswerEdits.of(blocked, option().get());
        }
        if (edits.isEmpty()) {
            return Optional.of("there is nothing to try");
        }
        Question question = answer.orElseThrow().question();
        Design tried = Outcome.apply(now, edits);
        Net net = tried.findNet(question.net().name()).orElseThrow();
        Answer after = Asker.ask(question.on(tried, net), Progress.NONE);
        whatIf = Optional.of(new WindowState.Tried(edits, after));
        return Optional.empty();
    }

    private Optional<String> keep() {
        if (whatIf.isEmpty()) {
            return Optional.of("there is no what-if to keep");
        }
        Answer after = whatIf.get().after();
        Question question = after.question();
        kept.add(
                new LedgerEntry(
                        "",
                        "",
                        "",
                        question.net().name(),
                        question.padValue().name(),
                        whatIf.get().edits()));
        now = question.design();
        answered(after);
        return Optional.empty();
    }

    private Optional<String> watch(UserAction.Watch watch) {
        List<Integer> pads = Condition.pads(now, watch.pad());
        if (pads.size() != 1) {
            return Optional.of(watch.pad() + " is not the name of exactly one pad");
        }
        WatchResult result;
        try {
            WatchQuestion question =
                    new WatchQuestion(now, watch.request().circuit(now), List.of(pads.get(0)));
            result = WatchPlacer.place(question, Progress.NONE);
        } catch (BadInput fault) {
            return Optional.of(fault.getMessage());
        }
        if (!(result instanceof WatchResult.Placed placed)) {
            return Optional.of(WatchText.sentence(result));
        }
        WatchResult.Leg leg = placed.legs().get(0);
        kept.add(new LedgerEntry("", "", "", leg.net(), leg.pad(), placed.edits()));
        now = placed.design();
        askAgain();
        return Optional.empty();
    }

    private Optional<String> undo() {
        if (kept.isEmpty()) {
            return Optional.of("nothing has been kept");
        }
        kept.remove(kept.size() - 1);
        now = original;
        kept.forEach(k -> now = Outcome.apply(now, k.edits()));
        askAgain();
        return Optional.empty();
    }

    /** As the window does when what is kept has changed. */
    private void askAgain() {
        answer.map(Answer::question)
                .ifPresent(
                        q ->
                                ask(
                                        new UserAction.Ask(
                                                q.net().name(), q.padValue().name(), q.corner())));
    }
}
