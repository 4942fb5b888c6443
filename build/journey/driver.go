package journey

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"net"
	"net/http"
	"os"
	"os/exec"
	"sync"
	"time"
)

// driver is the program that steers a browser, run by us on a loopback port.
type driver struct {
	address string
	process *exec.Cmd
	ended   chan struct{} // closed when the process is gone
	said    *tail
	client  *http.Client
}

// startDriver tries a few ports: between finding a free one and the driver taking it, another program may.
func startDriver(of Make, temp string) (*driver, error) {
	program, err := exec.LookPath(of.Driver)
	if err != nil {
		return nil, fmt.Errorf("this needs %s and its driver %s: install %s", of.Name, of.Driver, of.Install)
	}
	for try := 1; ; try++ {
		port, err := freePort()
		if err != nil {
			return nil, err
		}
		d, err := runDriver(program, of.Arguments(port), port, temp)
		if err == nil || try == 3 {
			return d, err
		}
	}
}

func freePort() (int, error) {
	listener, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		return 0, err
	}
	defer listener.Close()
	return listener.Addr().(*net.TCPAddr).Port, nil
}

func runDriver(program string, arguments []string, port int, temp string) (*driver, error) {
	d := &driver{
		address: fmt.Sprintf("http://127.0.0.1:%d", port),
		process: exec.Command(program, arguments...),
		ended:   make(chan struct{}),
		said:    &tail{},
		// No proxy: the driver is on this machine.
		client: &http.Client{Transport: &http.Transport{}, Timeout: 2 * Patience},
	}
	d.process.Stdout, d.process.Stderr = d.said, d.said
	// Where it leaves files, the browser it starts does too.
	d.process.Env = append(os.Environ(), "TMPDIR="+temp, "TEMP="+temp)
	// A browser that outlives its driver would hold the pipes open.
	d.process.WaitDelay = time.Second
	ownGroup(d.process)
	if err := d.process.Start(); err != nil {
		return nil, err
	}
	go func() {
		d.process.Wait() // how it ended is of no use: its last words are
		close(d.ended)
	}()
	if err := d.waitReady(); err != nil {
		d.stop()
		return nil, fmt.Errorf("%s: %w; it said: %s", program, err, d.said)
	}
	return d, nil
}

func (d *driver) waitReady() error {
	return until("the driver is ready", func() (bool, error) {
		select {
		case <-d.ended:
			return false, fmt.Errorf("the driver ended")
		default:
		}
		var status struct{ Ready bool }
		err := d.call("GET", "/status", nil, &status)
		return err == nil && status.Ready, nil
	})
}

// stop ends the driver and whatever it has started, and nothing else.
func (d *driver) stop() error {
	err := endGroup(d.process)
	<-d.ended
	d.client.CloseIdleConnections()
	return err
}

// Refusal is the driver's answer to a command that it could not carry out.
type Refusal struct {
	Code    string `json:"error"` // as the standard names it: "no such element"
	Message string `json:"message"`
}

func (r *Refusal) Error() string { return r.Code + ": " + r.Message }

func (d *driver) call(method, path string, body, result any) error {
	var sent io.Reader
	if body != nil {
		encoded, err := json.Marshal(body)
		if err != nil {
			return err
		}
		sent = bytes.NewReader(encoded)
	}
	request, err := http.NewRequest(method, d.address+path, sent)
	if err != nil {
		return err
	}
	request.Header.Set("Content-Type", "application/json; charset=utf-8")
	response, err := d.client.Do(request)
	if err != nil {
		return err
	}
	defer response.Body.Close()
	return decode(response, method+" "+path, result)
}

func decode(response *http.Response, command string, result any) error {
	var reply struct{ Value json.RawMessage }
	if err := json.NewDecoder(response.Body).Decode(&reply); err != nil {
		return fmt.Errorf("%s: the driver's answer is not JSON: %w", command, err)
	}
	if response.StatusCode != http.StatusOK {
		refusal := &Refusal{}
		if err := json.Unmarshal(reply.Value, refusal); err != nil {
			return fmt.Errorf("%s: status %d", command, response.StatusCode)
		}
		return refusal
	}
	if result == nil {
		return nil
	}
	return json.Unmarshal(reply.Value, result)
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
