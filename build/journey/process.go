package journey

import (
	"os/exec"
	"sync"
	"time"
)

// process is a program that runs for us, in a group of its own: what it starts ends with it.
type process struct {
	command *exec.Cmd
	ended   chan struct{} // closed when it is gone
	said    *tail
}

func run(command *exec.Cmd) (*process, error) {
	p := &process{command: command, ended: make(chan struct{}), said: &tail{}}
	command.Stdout, command.Stderr = p.said, p.said
	// A browser that outlives its driver would hold the pipes open.
	command.WaitDelay = time.Second
	ownGroup(command)
	if err := command.Start(); err != nil {
		return nil, err
	}
	go func() {
		command.Wait() // how it ended is of no use: its last words are
		close(p.ended)
	}()
	return p, nil
}

// stop ends the program and whatever it has started, and nothing else.
func (p *process) stop() error {
	err := endGroup(p.command)
	<-p.ended
	return err
}

func (p *process) hasEnded() bool {
	select {
	case <-p.ended:
		return true
	default:
		return false
	}
}

// tail keeps the last words of a process.
type tail struct {
	mu   sync.Mutex
	text []byte
}

func (t *tail) Write(p []byte) (int, error) {
	t.mu.Lock()
	defer t.mu.Unlock()
	t.text = append(t.text, p...)
	t.text = t.text[max(0, len(t.text)-2000):]
	return len(p), nil
}

func (t *tail) String() string {
	t.mu.Lock()
	defer t.mu.Unlock()
	return string(t.text)
}
