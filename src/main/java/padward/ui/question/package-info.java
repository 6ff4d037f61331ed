/** The question, its answer, and the options to unblock a route. */
package padward.ui.question;
